// SPDX-License-Identifier: MIT
#include "pose/choose.hpp"

#include <algorithm>
#include <cmath>

namespace rangecheck::pose {

bool together(const Someone& a, const Someone& b) {
  const auto frames_a = a.seen(), frames_b = b.seen();
  auto next = frames_b.begin();
  for (const At& at : frames_a) {
    while (next != frames_b.end() && next->frame < at.frame) ++next;
    if (next != frames_b.end() && next->frame == at.frame) return true;
  }
  return false;
}

namespace {

/// Hands that move together as closely as this are one golfer's.
constexpr double reflected = 0.94;

/// How much each answer counts toward being the golfer: fitted by tests/pose/fit_certainty.py to
/// 1440 made-up films.
constexpr Answers weights{5.4, 0.3, -5.1, -3.4, 5.3, 1.0, 0.45, 1.4, -1.2, 2.2, 0.95, 1.0, 2.55};

/// Whether `a` could be a reflection of `b`: what is in a mirror is farther from the camera, and is
/// not what the picture was aimed at.
bool behind_glass(const Signs& a, const Signs& b) {
  const double smaller = std::log(b.height_px / a.height_px), aside = a.aside - b.aside;
  return smaller + 0.5 * aside > 0.05;
}

/// Whether `b` may be `a` at another time, for all that is known: same place, same size.
bool may_be_one(const Sightings& sightings, const Someone& a, const Someone& b) {
  constexpr double same_place = 0.35, same_size = 0.2;
  if (together(a, b)) return false;
  // Who comes and goes while the other is not seen is held against what is nearest in time.
  const auto fits = [&](const At& from, const At& to) {
    const Shape &before = sightings.shape(from), &after = sightings.shape(to);
    const double height_px = std::max(before.height_px, after.height_px);
    return distance(before, after, height_px).value_or(1) < same_place &&
           std::abs(growth(before, after)) < same_size;
  };
  const auto seen = a.seen();
  const auto later = std::find_if(seen.begin(), seen.end(),
                                  [&](const At& at) { return at.frame > b.last().frame; });
  return (later != seen.begin() && fits(*std::prev(later), b.first())) ||
         (later != seen.end() && fits(b.last(), *later));
}

/// A person with all that may be the same person at other times.
Someone whole(const Sightings& sightings, const std::vector<Someone>& people, std::size_t i) {
  Someone out = people[i];
  for (std::size_t k = 0; k < people.size(); ++k) {
    if (k == i || !may_be_one(sightings, people[i], people[k]) || together(out, people[k]))
      continue;
    out.stretches.insert(out.stretches.end(), people[k].stretches.begin(),
                         people[k].stretches.end());
  }
  std::sort(out.stretches.begin(), out.stretches.end(),
            [](const Tracklet& a, const Tracklet& b) { return a.first.when < b.first.when; });
  return out;
}

Answers answers_of(const Candidate& candidate, double tallest_px) {
  const Signs& signs = candidate.signs;
  return {std::log(signs.height_px / tallest_px),
          signs.presence,
          std::min(signs.aside, 1.0),
          std::min(signs.travel, 1.0),
          signs.hands_joined,
          std::log1p(10 * std::min(signs.hands_range, 1.5)),
          std::log1p(std::min(signs.hands_speed, 6.0)),
          signs.whole,
          candidate.reflection ? 1.0 : 0.0,
          std::log(std::max(signs.presence, 0.003)),
          5 * std::min(signs.bent, 0.25),
          5 * std::clamp(signs.legs, 0.35, 0.65),
          signs.faces_ball};
}

/// Whether `b` swings while `a` does not, or as much as `a` and about as near and as long.
bool swings_too(const Candidate& a, const Candidate& b) {
  constexpr double a_swing = 0.06;  // range of the hands, over height
  if (b.signs.hands_range < a_swing) return false;
  if (!b.reflection && a.signs.hands_range < a_swing && b.signs.hands_range > 2 * a_swing &&
      b.signs.hands_joined > 0.5 && b.signs.presence > 0.2)
    return true;
  return b.signs.hands_range > 0.5 * a.signs.hands_range &&
         b.signs.height_px > 0.72 * a.signs.height_px && b.signs.presence > 0.3 * a.signs.presence;
}

}  // namespace

Choice choose(const Sightings& sightings, const std::vector<Someone>& people,
              const std::vector<Candidate>& candidates) {
  Choice out;
  for (std::size_t i = 1; i < candidates.size(); ++i)
    if (candidates[i].probability > candidates[out.golfer].probability) out.golfer = i;
  const Candidate& golfer = candidates[out.golfer];
  double others = 0;
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    if (i == out.golfer || may_be_one(sightings, people[out.golfer], people[i])) continue;
    others += candidates[i].probability;
    out.both_swing |= together(people[out.golfer], people[i]) &&
                      people[i].frames() * 5 > people[out.golfer].frames() &&
                      swings_too(golfer, candidates[i]);
    if (!out.rival || candidates[i].probability > candidates[*out.rival].probability) out.rival = i;
  }
  out.certainty = golfer.probability / (golfer.probability + others);
  return out;
}

std::vector<Candidate> candidates_of(const Sightings& sightings, const std::vector<Someone>& people,
                                     const intake::FilmedView& view) {
  std::vector<Candidate> out;
  double tallest_px = 1;
  std::vector<Someone> wholes;
  for (std::size_t i = 0; i < people.size(); ++i) {
    wholes.push_back(whole(sightings, people, i));
    out.push_back({signs_of(sightings, wholes.back(), view), {}, false, 0});
    if (out.back().signs.presence > 0.1)
      tallest_px = std::max(tallest_px, out.back().signs.height_px);
  }
  for (std::size_t i = 0; i < out.size(); ++i) {
    for (std::size_t k = 0; k < out.size(); ++k) {
      if (i != k && behind_glass(out[i].signs, out[k].signs))
        out[i].reflection |= in_step(sightings, wholes[i], wholes[k]) > reflected;
    }
  }
  double sum = 0, best = -1e9;
  for (Candidate& each : out) {
    each.answers = answers_of(each, tallest_px);
    each.probability = 0;
    for (std::size_t q = 0; q < question_count; ++q)
      each.probability += weights[q] * each.answers[q];
    best = std::max(best, each.probability);
  }
  for (std::size_t i = 0; i < out.size(); ++i) {
    // Someone in pieces is still one person.
    const double share =
        static_cast<double>(people[i].frames()) / static_cast<double>(wholes[i].frames());
    sum += out[i].probability = share * std::exp(out[i].probability - best);
  }
  for (Candidate& each : out) each.probability /= sum;
  return out;
}

}  // namespace rangecheck::pose
