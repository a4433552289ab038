// SPDX-License-Identifier: MIT
// Continuity: whether the two points of a pair go on under their names from frame to frame, or
// under each other's.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "pose/side_pairs.hpp"
#include "pose/side_path.hpp"

namespace rangecheck::pose {

/// Points of a pair nearer to each other than this are in one place: which is which does not matter
/// there, and nothing can be learnt of it.
inline constexpr double in_one_place_m = 0.02;

/// Of a point that is seen without the other of its pair: which of the two it goes on from.
struct Lone {
  std::size_t since = 0;  ///< the frame that last showed both apart
  float turned = 0;       ///< cost of its having turned since then; 0 where it can't be told
};

struct Links {
  /// For each frame, what it costs to take each pair for turned since the frame before. 0 where it
  /// can't be told.
  std::vector<PairCosts> turned;
  std::vector<std::array<std::optional<Lone>, pair_count>> lone;
};

Links links_of(const Pairs& pairs);

}  // namespace rangecheck::pose
