// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/Core>
#include <optional>

#include "base/skeleton.hpp"
#include "intake/film.hpp"
#include "intake/submission.hpp"

namespace rangecheck::posture {

/// Whose points in space: their errors belong to what saw them, and to the view where it was one
/// camera.
struct SpaceKind {
  intake::SpaceSource source = intake::SpaceSource::one_camera;
  intake::Estimator estimator = intake::Estimator::unknown;
  intake::View view = intake::View::face_on;
};

/// Depth was measured, not guessed from one picture.
bool is_measured(intake::SpaceSource source);

/// How a point in space lies against the anatomical point once its frame has been laid on the
/// golfer's, in metres along the camera's axes: right, down, away. All frames of a film share it.
struct SpaceError {
  Eigen::Vector3d bias_m = Eigen::Vector3d::Zero();
  Eigen::Vector3d sigma_m = Eigen::Vector3d::Zero();
};
/// For a point told with `confidence` (0..1).
SpaceError space_error(const SpaceKind& kind, LandmarkId id, double confidence);

/// How the frame that such points are given in lies against the axes that the view's name promises:
/// what is expected and its spread.
struct SpaceFrame {
  Eigen::Vector3d turn_rad = Eigen::Vector3d::Zero();  ///< tilt (about right), bearing (about
                                                       ///< down), roll (about away)
  Eigen::Vector3d turn_sigma_rad = Eigen::Vector3d::Zero();
  double log_scale = 0;
  double log_scale_sigma = 0;
};
SpaceFrame space_frame(const SpaceKind& kind);

/// An estimator that guesses depth from one picture draws a body toward square: of two shoulders
/// each is shown `share` of the way to the other along Z, of other pairs `space_pull_times` that.
struct SpacePull {
  double share;
  double sigma;
};
/// Nothing where depth is measured.
std::optional<SpacePull> space_pull(const SpaceKind& kind);
/// 0 for joints that are left where they are.
double space_pull_times(Joint joint);

}  // namespace rangecheck::posture
