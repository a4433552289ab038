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

enum class Part { foot, knee, hip, shoulder, head, elbow, wrist, hand, club };

Part part_of(Joint joint) {
  switch (joint) {
    case Joint::ankle:
    case Joint::heel:
    case Joint::big_toe:
    case Joint::small_toe:
      return Part::foot;
    case Joint::knee:
      return Part::knee;
    case Joint::hip:
    case Joint::pelvis:
      return Part::hip;
    case Joint::shoulder:
    case Joint::mid_spine:
    case Joint::neck:
      return Part::shoulder;
    case Joint::nose:
    case Joint::eye:
    case Joint::ear:
    case Joint::head_top:
      return Part::head;
    case Joint::elbow:
      return Part::elbow;
    case Joint::wrist:
      return Part::wrist;
    case Joint::grip_end:
    case Joint::shaft_mid:
    case Joint::hosel:
    case Joint::club_toe:
      return Part::club;
    default:
      return Part::hand;
  }
}

/// An estimator that misses a wrist misses the whole hand by the same: its points tell little of
/// the wrist that the wrist has not told.
constexpr double hand_over_wrist = 2;

/// Of estimators in general: a part of what they are off by at address stays, a part goes with the
/// posture. Shares of the spread at address; common practice, no source.
Wander general(Part part, double still_sigma_m) {
  switch (part) {
    case Part::foot:
    case Part::knee:
    case Part::hip:
      return {0.85, 0.50 * still_sigma_m};
    case Part::head:
      return {0.85, 0.45 * still_sigma_m};
    case Part::shoulder:
      return {0.75, 0.80 * still_sigma_m};
    case Part::elbow:
    case Part::wrist:
      return {0.60, 1.00 * still_sigma_m};
    case Part::hand:
      return {0.60, hand_over_wrist * still_sigma_m};
    case Part::club:
      break;
  }
  return {0.3, 0.014};
}

/// Straight from 0 at phase `from` to 1 at `to` and beyond.
double ramp(double phase, double from, double to) {
  return std::clamp((phase - from) / (to - from), 0.0, 1.0);
}

/// Points in space are found anew in each frame, depth more than anything: less of what they are
/// off by stays than in a picture. Shares of the spread at address; common practice, no source.
constexpr double most_kept_in_space = 0.75, least_new_in_space = 0.65;

/// The 33-point set, calibrated on three films of rendered golfers in full swing: legs stay off by
/// what they were off at address, the upper body does not; hips seen from the side come loose when
/// they turn fast, shoulders once they have passed the ball, and all of it at the finish.
Wander of_points_33(Part part, intake::View view, double phase) {
  const bool side = view == intake::View::down_the_line;
  const double down = ramp(phase, 3, 4.5), through = ramp(phase, 5.5, 7.5),
               finish = ramp(phase, 8, 9);
  switch (part) {
    case Part::foot:
      return {0.9, 0.006 + 0.018 * std::max(0.0, phase - 5.5)};
    case Part::knee:
      return {0.85, 0.007};
    case Part::hip:
      return {0.85, (side ? 0.012 + 0.017 * down : 0.018) + 0.016 * finish};
    case Part::head:
      return {0.6, 0.015};
    case Part::shoulder:
      return {0.5, 0.028 + 0.012 * through + 0.020 * finish};
    case Part::elbow:
      return {0.3, 0.026 + 0.010 * through};
    case Part::wrist:
      return {0.3, 0.020};
    case Part::hand:
      return {0.3, hand_over_wrist * 0.020};
    case Part::club:
      break;
  }
  return {0.3, 0.014};
}

/// The 33-point set reads the lead shoulder high once it has come under the chin: by this much more
/// than at address, from the shaft parallel back to the shaft parallel down. Same calibration.
double lead_shoulder_lift_m(double phase) {
  return 0.030 * std::clamp(std::min(phase - 0.5, 5.0 - phase), 0.0, 1.0);
}

bool is_arm(Part part) { return part == Part::elbow || part == Part::wrist || part == Part::hand; }

/// Arms hide behind the head where they are folded over it: the lead one at the top, both at the
/// finish. Their confidence does not always say so.
double hidden(LandmarkId id, double phase) {
  if (!is_arm(part_of(id.joint))) return 1;
  const auto near = [phase](double at, double reach) {
    return std::max(0.0, 1 - std::abs(phase - at) / reach);
  };
  const double at_top = id.side == Side::lead ? 3.5 * near(3, 0.9) : 0.0;
  return 1 + at_top + 2.5 * near(9, 0.9);
}

/// An arm behind the body is guessed: below a confidence of one half that soon means nothing. The
/// rest of a body is placed well enough from what is seen of it.
double doubt(Part part, double confidence) {
  return 1 + (is_arm(part) ? 6.0 : 1.5) * std::max(0.0, (0.5 - confidence) / 0.5);
}

/// Feet of estimators in general as they roll and rise through the ball.
double rolling_m(Part part, double phase) {
  return part == Part::foot ? 0.006 * std::max(0.0, phase - 6) : 0;
}

}  // namespace

MotionError motion_error(intake::Estimator estimator, intake::View view, LandmarkId id,
                         double confidence, double phase) {
  const LandmarkError still = landmark_error(estimator, view, id, confidence);
  const bool known = estimator == intake::Estimator::points_33;
  const Part part = part_of(id.joint);
  const Wander each = known ? of_points_33(part, view, phase) : general(part, still.sigma_m.mean());
  MotionError out{
      still.bias_m, each.kept, still.sigma_m,
      std::hypot(each.new_m * hidden(id, phase) * doubt(part, confidence), rolling_m(part, phase))};
  // Image down is positive: high is less.
  if (known && id == lead(Joint::shoulder)) out.bias_m.y() -= lead_shoulder_lift_m(phase);
  return out;
}

SpaceMotionError space_motion_error(const SpaceKind& kind, LandmarkId id, double confidence,
                                    double phase) {
  const SpaceError still = space_error(kind, id, confidence);
  const Part part = part_of(id.joint);
  SpaceMotionError out{still.bias_m, 0, still.sigma_m, Eigen::Vector3d::Zero()};
  for (int i = 0; i < 3; ++i) {
    const Wander each = general(part, still.sigma_m[i]);
    out.kept = std::min(each.kept, most_kept_in_space);
    // Where several cameras look, a body hides nothing.
    const bool hides = kind.source == intake::SpaceSource::one_camera ||
                       kind.source == intake::SpaceSource::depth_camera;
    out.new_sigma_m[i] = std::hypot(std::max(each.new_m, least_new_in_space * still.sigma_m[i]) *
                                        (hides ? hidden(id, phase) : 1) * doubt(part, confidence),
                                    rolling_m(part, phase));
  }
  return out;
}

}  // namespace rangecheck::posture
