// SPDX-License-Identifier: MIT
// Hands on a grip. Clockwise is as the golfer sees it who looks down the shaft: to the trail side
// over the top of the grip.
#pragma once

#include <Eigen/Core>

#include "generator/golfer.hpp"

namespace rangecheck::samples {

/// Side of the grip that is uppermost, and the one toward the trail side: unit vectors square to
/// the shaft, which points `down` from grip to head.
struct GripSides {
  Eigen::Vector3d top, trailward;
};
GripSides sides_of_grip(const Eigen::Vector3d& down);

/// One hand as it holds: the palm's middle lies on the shaft.
struct HeldHand {
  Side side;
  Eigen::Vector3d wrist, palm, down;
  double thumb_deg;  ///< where the thumb lies on the grip: 0 on top, clockwise positive
  double stature_m;
};

/// Adds wrist and all 20 points of the hand.
void place_hand(Points& points, const HeldHand& hand);

}  // namespace rangecheck::samples
