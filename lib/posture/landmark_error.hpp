// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/Core>
#include <optional>

#include "base/skeleton.hpp"
#include "intake/film.hpp"
#include "intake/submission.hpp"

namespace rangecheck::posture {

/// How an estimator's point lies against the anatomical point, in metres on the body, along image
/// right and image down. All frames of a film share it: no averaging removes it.
struct LandmarkError {
  Eigen::Vector2d bias_m = Eigen::Vector2d::Zero();
  Eigen::Vector2d sigma_m = Eigen::Vector2d::Zero();
};

/// For a point seen with `confidence` (0..1) in a film of `view`. Known estimators have their
/// calibrated table; others have no bias and the spread of published studies.
LandmarkError landmark_error(intake::Estimator estimator, intake::View view, LandmarkId id,
                             double confidence);

/// In a side view the far shoulder hides behind the chest, and an estimator that has to guess it
/// draws the two shoulders toward each other along Z: each is shown `share` of the way to the
/// other.
struct ShoulderPull {
  double share;
  double sigma;
};
/// Nothing for estimators and views that have not been calibrated.
std::optional<ShoulderPull> shoulder_pull(intake::Estimator estimator, intake::View view);

}  // namespace rangecheck::posture
