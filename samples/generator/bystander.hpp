// SPDX-License-Identifier: MIT
// Someone who is not the golfer: walks past, or stands about and talks with the hands. Same axes as
// the golfer, but anywhere on the ground.
#pragma once

#include "generator/golfer.hpp"

namespace rangecheck::samples {

/// One arm against hanging straight down. Degrees.
struct ArmHeld {
  double forward = 0;  ///< of the upper arm
  double out = 0;      ///< of the upper arm, away from the body
  double elbow = 0;    ///< flexion
  double inward = 0;   ///< where the forearm bends to: 0 forward, 90 across the body
};

/// One leg against standing straight. Degrees.
struct LegHeld {
  double forward = 0;  ///< of the thigh
  double knee = 0;     ///< flexion
};

/// An upright person's posture and place. Lead is the left of whoever stands here.
struct Upright {
  Eigen::Vector3d place = Eigen::Vector3d::Zero();  ///< on the ground under the pelvis, metres
  double heading_rad = 0;  ///< where the person faces, from Z to X: 0 is a golfer's own front
  double lean_deg = 4;     ///< of the trunk, forward
  LegHeld lead_leg, trail_leg;
  ArmHeld lead_arm, trail_arm;
};

/// All points that detectors look for; the lower foot is on the ground.
Points upright_points(const Body& body, const Upright& upright);

/// A person who walks straight on.
class Walker {
 public:
  /// Is at `crossing` (on the ground) at `crossing_s`, metres a second.
  Walker(Random& random, const Eigen::Vector3d& crossing, double crossing_s,
         const Eigen::Vector3d& velocity);
  Points points(double time_s) const;

 private:
  Body body_;
  Eigen::Vector3d crossing_, velocity_;
  double crossing_s_, phase_;
};

/// A person who stays on one spot, shifts from foot to foot and talks with the hands.
class Stander {
 public:
  Stander(Random& random, const Eigen::Vector3d& place, double heading_rad);
  Points points(double time_s) const;

 private:
  static constexpr std::size_t gestures = 16;
  struct Gesture {
    ArmHeld lead, trail;
  };
  static Gesture draw_gesture(Random& random);

  Body body_;
  Upright upright_;
  std::array<Gesture, gestures> gesture_;
  double gesture_s_, sway_phase_;
};

}  // namespace rangecheck::samples
