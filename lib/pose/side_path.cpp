// SPDX-License-Identifier: MIT
#include "pose/side_path.hpp"

#include <algorithm>
#include <limits>

namespace rangecheck::pose {
namespace {

/// That an estimator begins to exchange pairs from one frame to the next, and that it ceases to.
/// Common practice, no source.
constexpr float begins = 5.5F, ceases = 2.5F;
/// That a film begins so, and for each joint between an exchanged pair and one that is not:
/// estimators exchange whole bodies, limbs next, single pairs least.
constexpr float any_exchanged = 5, torn_apart = 0.25F;
/// Both hands are on one grip: of themselves they hardly tell which is which.
constexpr float hands_apart = 1;

/// What it costs that a film begins with just this set exchanged.
SetCosts costs_of_sets() {
  SetCosts out{};
  for (PairSet set = 1; set < set_count; ++set) {
    out[set] = any_exchanged;
    for (const auto& [a, b] : joined) {
      if (((set & only(a)) != 0) == ((set & only(b)) != 0)) continue;
      out[set] += b == Pair::hands ? hands_apart : torn_apart;
    }
  }
  return out;
}

const SetCosts& at_first() {
  static const SetCosts costs = costs_of_sets();
  return costs;
}

/// The least of `costs` over all sets from which each set is reached by turning pairs one way,
/// with what it costs to turn them.
void turn(SetCosts& costs, const PairCosts& turned, bool into) {
  for (std::size_t p = 0; p < pair_count; ++p) {
    const std::size_t bit = std::size_t{1} << p;
    for (std::size_t base = 0; base < set_count; base += 2 * bit) {
      const float* const from = costs.data() + base + (into ? 0 : bit);
      float* const to = costs.data() + base + (into ? bit : 0);
      for (std::size_t i = 0; i < bit; ++i) to[i] = std::min(to[i], from[i] + turned[p]);
    }
  }
}

/// Allows for pairs that begin to be exchanged, or others that cease to. Not both in one frame:
/// what speaks for a pair's turning would count twice.
SetCosts with_changes(const SetCosts& costs, const PairCosts& turned, float into, float out_of) {
  SetCosts more = costs, fewer = costs, out;
  turn(more, turned, true);
  turn(fewer, turned, false);
  for (std::size_t s = 0; s < set_count; ++s)
    out[s] = std::min({costs[s], more[s] + into, fewer[s] + out_of});
  return out;
}

void add(SetCosts& costs, const SideEvidence& now) {
  if (now.hands_exchanged != 0) {
    for (PairSet s = 0; s < set_count; ++s)
      if (s & only(Pair::hands)) costs[s] += now.hands_exchanged;
  }
  if (now.standing == nullptr) return;
  for (std::size_t s = 0; s < set_count; ++s) costs[s] += (*now.standing)[s];
}

/// Cheapest way to each set in a frame, up to and with that frame, from those of the frame before.
SetCosts forward(const SetCosts& before, const SideEvidence& now) {
  SetCosts out = with_changes(before, now.turned, begins, ceases);
  add(out, now);
  return out;
}

/// Cheapest way on from each set of the frame before, given those from `now` on without `now`. Back
/// in time, what begins ceases.
SetCosts backward(SetCosts after, const SideEvidence& now) {
  add(after, now);
  return with_changes(after, now.turned, ceases, begins);
}

PairCosts margins(const SetCosts& there, const SetCosts& on) {
  constexpr float most = std::numeric_limits<float>::max();
  PairCosts right, exchanged;
  right.fill(most);
  exchanged.fill(most);
  SetCosts whole;
  for (std::size_t s = 0; s < set_count; ++s) whole[s] = there[s] + on[s];
  for (std::size_t p = 0; p < pair_count; ++p) {
    const std::size_t bit = std::size_t{1} << p;
    for (std::size_t base = 0; base < set_count; base += 2 * bit) {
      for (std::size_t i = base; i < base + bit; ++i) {
        right[p] = std::min(right[p], whole[i]);
        exchanged[p] = std::min(exchanged[p], whole[i + bit]);
      }
    }
  }
  PairCosts out;
  for (std::size_t p = 0; p < pair_count; ++p) out[p] = right[p] - exchanged[p];
  return out;
}

}  // namespace

float cost_alone(std::size_t pair) { return std::min(begins, at_first()[std::size_t{1} << pair]); }

std::vector<PairCosts> exchanged_by(std::span<const SideEvidence> film) {
  if (film.empty()) return {};
  std::vector<SetCosts> there(film.size());
  there[0] = at_first();
  add(there[0], film[0]);
  for (std::size_t f = 1; f < film.size(); ++f) there[f] = forward(there[f - 1], film[f]);
  std::vector<PairCosts> out(film.size());
  SetCosts on{};
  for (std::size_t f = film.size(); f-- > 0;) {
    out[f] = margins(there[f], on);
    if (f > 0) on = backward(on, film[f]);
  }
  return out;
}

}  // namespace rangecheck::pose
