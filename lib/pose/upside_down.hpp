// SPDX-License-Identifier: MIT
#pragma once

#include "pose/golfer.hpp"

namespace rangecheck::pose {

/// How many frames show the golfer upside down: an estimator that took the body for its mirror
/// image on the ground.
std::size_t upside_down_frames(const Track& track);

/// Empties these frames, and says how many they were. To be done after the golfer was chosen: a
/// bystander must not win because the golfer's frames fell away.
std::size_t drop_upside_down(Track& track);

}  // namespace rangecheck::pose
