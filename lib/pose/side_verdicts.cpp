// SPDX-License-Identifier: MIT
#include "pose/side_verdicts.hpp"

#include <algorithm>
#include <cmath>

#include "pose/side_anchors.hpp"

namespace rangecheck::pose {
namespace {

/// A pair is exchanged if that is e^6 times as likely. It is right if what is seen speaks for an
/// exchange by no more than `most_for_exchange`: of itself one is unlikely.
constexpr float exchanged_margin = 6, most_for_exchange = 0.5F;
/// A pair that alone differs from the parts of the body next to it must be surer.
constexpr float alone_margin = 9;
/// Hands tell little of themselves: both are on one grip.
constexpr float most_for_hands = 1, hands_margin = 9, hands_with_arms_margin = 2,
                hands_right_margin = 12;
/// A point without its pair must go on from where one of the two was, by as much.
constexpr float lone_margin = 2;
/// And not be without it for longer than this.
constexpr std::size_t most_frames_alone = 40;
/// In a film that exchanges nothing else of the half of the body, no more than this may speak
/// against a point without its pair.
constexpr float lone_doubt = 1;
/// Less than this for the names that an estimator gives is nothing that shows which is which.
constexpr float least_for_right = 1;

/// Hands farther apart are not on one grip: one of them is wild and the other a hand, under
/// whichever name.
constexpr double on_one_grip_m = 0.25;

/// Estimators take a few frames to settle.
constexpr std::size_t stray_frames = 2;
/// In a film that exchanges nothing else of the half of the body a pair is believed and told of,
/// not left out, up to here.
constexpr float least_doubt = 1;

constexpr auto hands = index_of(Pair::hands);
constexpr PairSet upper =
    only(Pair::face) | only(Pair::shoulders) | only(Pair::elbows) | only(Pair::hands);

enum class Verdict {
  right,
  exchanged,
  open,     ///< not to be told
  believed  ///< hardly to be told, and taken for right
};

Verdict by_cost(float exchanged, std::size_t pair) {
  const float most = pair == hands ? most_for_hands : most_for_exchange;
  if (exchanged > exchanged_margin) return Verdict::exchanged;
  return exchanged < most - cost_alone(pair) ? Verdict::right : Verdict::open;
}

bool is_apart(const PairsFrame& frame, std::size_t pair) {
  const auto apart = frame.apart(pair);
  return apart && apart->squared() > in_one_place_m * in_one_place_m;
}

/// Whether a film exchanges anything of the same half of the body. Where it does not, what little
/// hands and single points tell is no reason to doubt them.
bool half_is_exchanged(const Judged& judged, std::size_t pair) {
  const PairSet half = upper >> pair & 1U ? upper : all_pairs & ~upper;
  return (judged.exchanged_ever & half) != 0;
}

/// How many of the parts of the body next to a pair can be told, and how many have this verdict.
struct Neighbours {
  int told = 0, same = 0;
};

Neighbours neighbours(const PairsFrame& frame, const PairCosts& exchanged, std::size_t pair,
                      Verdict verdict) {
  Neighbours out;
  for (const auto& [a, b] : joined) {
    if (index_of(a) != pair && index_of(b) != pair) continue;
    const std::size_t other = index_of(a) == pair ? index_of(b) : index_of(a);
    if (!is_apart(frame, other)) continue;
    ++out.told;
    out.same += by_cost(exchanged[other], other) == verdict;
  }
  return out;
}

/// A point without its pair is what it was when both were seen, where it goes on from there and the
/// parts of the body next to it and the frames about it agree.
Verdict of_lone(const PairsFrame& frame, const Judged& judged, std::size_t number,
                std::size_t pair) {
  const auto& lone = judged.links.lone[number][pair];
  const float turned = lone ? lone->turned : 0;
  const Verdict before = lone ? by_cost(judged.exchanged[lone->since][pair], pair) : Verdict::right;
  if (judged.all_open) return Verdict::right;
  if (!half_is_exchanged(judged, pair)) {
    const bool quiet = !(judged.doubted_ever >> pair & 1U) && turned > -lone_doubt;
    return quiet && before == Verdict::right ? Verdict::right : Verdict::open;
  }
  if (!lone || number - lone->since > most_frames_alone) return Verdict::open;
  if (std::abs(turned) < lone_margin || before == Verdict::open) return Verdict::open;
  const bool exchanged = (before == Verdict::exchanged) != (turned < 0);
  const Verdict verdict = exchanged ? Verdict::exchanged : Verdict::right;
  if (by_cost(judged.exchanged[number][pair], pair) != verdict) return Verdict::open;
  const auto [told, same] = neighbours(frame, judged.exchanged[number], pair, verdict);
  return told > 0 && same == told ? verdict : Verdict::open;
}

/// How many pairs of the upper body other than the hands are exchanged in a frame.
int upper_exchanged(const PairsFrame& frame, const PairCosts& exchanged) {
  int out = 0;
  for (const Pair pair : {Pair::face, Pair::shoulders, Pair::elbows}) {
    const std::size_t p = index_of(pair);
    out += is_apart(frame, p) && by_cost(exchanged[p], p) == Verdict::exchanged;
  }
  return out;
}

/// Hands go with the rest of the upper body unless they show otherwise.
Verdict of_hands(const PairsFrame& frame, const PairCosts& exchanged) {
  const float cost = exchanged[hands];
  const int others = upper_exchanged(frame, exchanged);
  if (others > 1 && cost > hands_with_arms_margin) return Verdict::exchanged;
  if (others > 0 && cost > hands_margin) return Verdict::exchanged;
  if (others > 0) return cost < -hands_right_margin ? Verdict::right : Verdict::open;
  return by_cost(cost, hands) == Verdict::right ? Verdict::right : Verdict::open;
}

Verdict verdict_of(const PairsFrame& frame, const Judged& judged, std::size_t number,
                   std::size_t pair) {
  if (!frame.apart(pair)) return of_lone(frame, judged, number, pair);
  const PairCosts& exchanged = judged.exchanged[number];
  Verdict verdict = pair == hands ? of_hands(frame, exchanged) : by_cost(exchanged[pair], pair);
  // An estimator that exchanges shoulders seldom does so with the face.
  const bool alone = pair == index_of(Pair::face) ||
                     neighbours(frame, exchanged, pair, Verdict::exchanged).same == 0;
  if (verdict == Verdict::exchanged && exchanged[pair] < alone_margin && alone)
    verdict = Verdict::open;
  // The middle of a pair's points says nothing, and yet some of them may lie apart.
  if (!is_apart(frame, pair) && (pair != hands || half_is_exchanged(judged, pair)))
    verdict = Verdict::open;
  const bool one_is_wild = pair == hands && frame.widest_m[pair] > on_one_grip_m;
  const bool matters = frame.widest_m[pair] > no_matter_m(pair) && !one_is_wild;
  const bool steady = !(judged.unsteady >> pair & 1U) && !half_is_exchanged(judged, pair);
  const bool kept = judged.all_open || (steady && pair != hands && exchanged[pair] < -least_doubt);
  if (verdict != Verdict::open || (matters && !kept)) return verdict;
  // A hand belongs to its arm.
  const bool arms_exchanged = pair == hands && upper_exchanged(frame, exchanged) > 1;
  if (arms_exchanged) return Verdict::exchanged;
  return matters ? Verdict::believed : Verdict::right;
}

/// Pairs for which `holds(cost, pair)` in more than a stray frame in which they lie apart.
template <class Holds>
PairSet ever(const Pairs& pairs, const std::vector<PairCosts>& exchanged, const Holds& holds) {
  const std::size_t stray = std::min<std::size_t>(stray_frames, exchanged.size() / 10);
  PairSet out = 0;
  for (std::size_t p = 0; p < pair_count; ++p) {
    std::size_t frames = 0;
    for (std::size_t f = 0; f < exchanged.size(); ++f) {
      const bool apart = pairs.frames[f] && pairs.frames[f]->widest_m[p] > no_matter_m(p);
      frames += apart && holds(exchanged[f][p], p);
    }
    if (frames > stray) out |= 1U << p;
  }
  return out;
}

/// Pairs that lie apart in most frames at address, of which little speaks for the names they have.
PairSet believed(const Pairs& pairs, const Phases& phases,
                 const std::vector<PairCosts>& exchanged) {
  PairSet out = 0;
  for (std::size_t p = 0; p < pair_count; ++p) {
    if (p == hands) continue;
    std::size_t frames = 0;
    for (const std::size_t f : phases.address) {
      if (!pairs.frames[f]) continue;
      const auto apart = pairs.frames[f]->apart(p);
      frames += apart && apart->squared() > no_matter_m(p) * no_matter_m(p) &&
                exchanged[f][p] > -cost_alone(p) - least_for_right;
    }
    if (2 * frames > phases.address.size()) out |= 1U << p;
  }
  return out;
}

/// Whether a film that exchanges nothing for certain leaves it open for most of the body which way
/// round it is. To leave all of that out would leave nothing.
bool all_is_open(const Pairs& pairs, const Judged& judged) {
  if (judged.exchanged_ever != 0) return false;
  std::size_t open_frames = 0, frames = 0;
  for (std::size_t f = 0; f < pairs.frames.size(); ++f) {
    if (!pairs.frames[f]) continue;
    std::size_t open = 0;
    for (std::size_t p = 0; p < pair_count; ++p)
      open += by_cost(judged.exchanged[f][p], p) == Verdict::open;
    ++frames;
    open_frames += 2 * open > pair_count;
  }
  return 2 * open_frames > frames;
}

}  // namespace

Judged judge(const Pairs& pairs, const Phases& phases, intake::View view, bool back) {
  Judged out;
  out.links = links_of(pairs);
  const auto standing = standing_costs(pairs, phases, view, back);
  std::vector<SideEvidence> film(pairs.frames.size());
  const auto grip = grip_costs(pairs, phases);
  for (std::size_t f = 0; f < film.size(); ++f)
    film[f] = {out.links.turned[f], grip[f], standing[f].get()};
  out.exchanged = exchanged_by(film);
  const auto is = [](Verdict verdict) {
    return [verdict](float cost, std::size_t pair) { return by_cost(cost, pair) == verdict; };
  };
  out.exchanged_ever = ever(pairs, out.exchanged, is(Verdict::exchanged));
  out.doubted_ever = ever(pairs, out.exchanged, is(Verdict::open));
  out.unsteady =
      ever(pairs, out.exchanged, [](float cost, std::size_t) { return cost > least_doubt; });
  out.all_open = all_is_open(pairs, out);
  out.believed = out.all_open ? all_pairs
                              : believed(pairs, phases, out.exchanged) |
                                    (out.doubted_ever & ~only(Pair::hands));
  return out;
}

Verdicts verdicts_of(const PairsFrame& frame, const Judged& judged, std::size_t number) {
  Verdicts out;
  for (std::size_t p = 0; p < pair_count; ++p) {
    if (!frame.lead[p] && !frame.trail[p]) continue;
    const PairSet pair = 1U << p;
    const Verdict verdict = verdict_of(frame, judged, number, p);
    if (frame.apart(p)) out.seen |= pair;
    if (verdict == Verdict::open) out.open |= pair;
    if (verdict == Verdict::believed) out.believed |= pair;
    if (verdict == Verdict::exchanged) out.exchanged |= pair;
    if (verdict == Verdict::exchanged && frame.widest_m[p] > no_matter_m(p)) out.visible |= pair;
  }
  return out;
}

}  // namespace rangecheck::pose
