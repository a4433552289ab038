// SPDX-License-Identifier: MIT
// Which pairs are exchanged in each frame of a film: the cheapest path through all sets of pairs,
// and how much dearer each pair would be the other way.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "pose/side_pairs.hpp"

namespace rangecheck::pose {

inline constexpr std::size_t set_count = std::size_t{1} << pair_count;
/// A cost for every set of exchanged pairs; negative logarithms of odds.
using SetCosts = std::array<float, set_count>;
using PairCosts = std::array<float, pair_count>;

/// What speaks for and against in one frame.
struct SideEvidence {
  /// Of naming a pair the other way than in the frame before; negative when that fits better.
  PairCosts turned{};
  float hands_exchanged = 0;           ///< of the hands' being exchanged, in this frame alone
  const SetCosts* standing = nullptr;  ///< of each set in this frame alone; may be absent
};

/// What it costs before anything is seen that an estimator exchanges this pair and no other.
float cost_alone(std::size_t pair);

/// For each frame and pair the cost of its being right less that of its being exchanged, each with
/// the best of everything else: positive where it is exchanged.
std::vector<PairCosts> exchanged_by(std::span<const SideEvidence> film);

}  // namespace rangecheck::pose
