// SPDX-License-Identifier: MIT
#include "posture/motion_error.hpp"

#include <algorithm>
#include <cmath>

namespace rangecheck::posture {
namespace {

struct Wander {
  double kept;
  double new_m;
};

/// Calibrated on three films of rendered golfers in full swing, read by the 33-point estimator:
/// legs stay off by what they were off at address, the upper body does not.
Wander wander(Joint joint) {
  switch (joint) {
    case Joint::ankle:
    case Joint::heel:
    case Joint::big_toe:
    case Joint::small_toe:
      return {0.9, 0.007};
    case Joint::knee:
      return {0.85, 0.008};
    case Joint::hip:
    case Joint::pelvis:
      return {0.8, 0.014};
    case Joint::nose:
    case Joint::eye:
    case Joint::ear:
    case Joint::neck:
    case Joint::head_top:
      return {0.6, 0.018};
    case Joint::shoulder:
    case Joint::mid_spine:
      return {0.4, 0.028};
    case Joint::elbow:
      return {0.3, 0.030};
    case Joint::grip_end:
    case Joint::shaft_mid:
    case Joint::hosel:
    case Joint::club_toe:
      return {0.3, 0.014};
    default:
      return {0.3, 0.022};
  }
}

bool is_foot(Joint joint) {
  return joint == Joint::heel || joint == Joint::big_toe || joint == Joint::small_toe;
}

bool is_arm(Joint joint) {
  return joint == Joint::elbow || joint == Joint::wrist || joint >= Joint::thumb_1;
}

/// Arms hide behind the head where they are folded over it: the lead one at the top, both at the
/// finish. Their confidence does not always say so.
double hidden(LandmarkId id, double phase) {
  if (!is_arm(id.joint)) return 1;
  const auto near = [phase](double at, double reach) {
    return std::max(0.0, 1 - std::abs(phase - at) / reach);
  };
  const double at_top = id.side == Side::lead ? 2.0 * near(3, 0.8) : 0.0;
  return 1 + at_top + 2.5 * near(9, 0.9);
}

/// An arm behind the body is guessed: below a confidence of one half that soon means nothing.
double doubt(double confidence) { return 1 + 6 * std::max(0.0, (0.5 - confidence) / 0.5); }

/// Feet that roll and rise through the ball.
double rolling_m(LandmarkId id, double phase) {
  return is_foot(id.joint) ? 0.009 * std::max(0.0, phase - 6) : 0;
}

}  // namespace

MotionError motion_error(intake::Estimator estimator, intake::View view, LandmarkId id,
                         double confidence, double phase) {
  const LandmarkError still = landmark_error(estimator, view, id, confidence);
  const Wander each = wander(id.joint);
  return {still.bias_m, each.kept, still.sigma_m,
          std::hypot(each.new_m * hidden(id, phase) * doubt(confidence), rolling_m(id, phase))};
}

}  // namespace rangecheck::posture
