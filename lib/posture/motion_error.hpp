// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/Core>

#include "posture/landmark_error.hpp"
#include "posture/space_error.hpp"

namespace rangecheck::posture {

/// How an estimator's point lies against the anatomical point in the middle of a swing, in metres
/// on the body along image right and down: the same bias as at address, `kept` times what it was
/// off by at address besides, and something new of spread `new_sigma_m`.
struct MotionError {
  Eigen::Vector2d bias_m = Eigen::Vector2d::Zero();
  double kept = 0;
  Eigen::Vector2d address_sigma_m = Eigen::Vector2d::Zero();  ///< of what is kept
  double new_sigma_m = 0;
};

/// For a point seen with `confidence` at `phase` (0 address … 9 finish; posture/position.hpp).
MotionError motion_error(intake::Estimator estimator, intake::View view, LandmarkId id,
                         double confidence, double phase);

/// The same of points in space, along right, down and away.
struct SpaceMotionError {
  Eigen::Vector3d bias_m = Eigen::Vector3d::Zero();
  double kept = 0;
  Eigen::Vector3d address_sigma_m = Eigen::Vector3d::Zero();
  Eigen::Vector3d new_sigma_m = Eigen::Vector3d::Zero();
};
SpaceMotionError space_motion_error(const SpaceKind& kind, LandmarkId id, double confidence,
                                    double phase);

/// How much of a fast point's movement blurs into its place: the time that a phone's shutter stays
/// open at most, as a spread. Common practice, no source: 1/120 s over √12.
inline constexpr double blur_s = 1.0 / 120 / 3.4641016151377544;

}  // namespace rangecheck::posture
