// SPDX-License-Identifier: MIT
#pragma once

#include "base/skeleton.hpp"
#include "posture/posture.hpp"

namespace rangecheck::posture {

/// Where a golfer with this address would be at `phase` of the swing (0 address … 9 finish) if he
/// moved as golfers do on the whole (posture/swing_priors.hpp), metres, golfer frame. Has every
/// landmark of `address` but the ball's. `stature_m` scales shifts.
LandmarkMap<Point> generic_pose(const LandmarkMap<Point>& address, double stature_m, double phase);

}  // namespace rangecheck::posture
