// SPDX-License-Identifier: MIT
// Points in space laid on a body, and what it says of them. Inside posture only.
#pragma once

#include <vector>

#include "posture/address.hpp"

namespace rangecheck::posture {

/// How a film's points in space lie on joints, both along the camera's axes, once what such points
/// are known to be off by is taken out: point = exp(log_scale) turn joint + shift.
struct SpaceFit {
  Eigen::Matrix3d turn = Eigen::Matrix3d::Identity();
  double log_scale = 0;
  Eigen::Vector3d shift = Eigen::Vector3d::Zero();
  LandmarkMap<Eigen::Vector3d> left_m;              ///< of each point along right, down and away
  Eigen::Vector3d rms_m = Eigen::Vector3d::Zero();  ///< the same over all
  double mirrored_rms_m = 0;                        ///< in all, had the points been a mirror image
  int joints = 0;

  double tilt_rad() const;     ///< about right
  double bearing_rad() const;  ///< about down
};

/// The similarity of least squares (Umeyama 1991, IEEE TPAMI 13:376) over the joints that have both
/// (golfer frame); residuals in the joints' metres.
SpaceFit fit_space(const ViewEvidence& view, const LandmarkMap<Point>& joints);

/// The body that prior knowledge expects at address.
LandmarkMap<Point> expected_body(double stature_m);

/// The points are the mirror image of a golfer at address: depth counted the wrong way round, or
/// left taken for right.
bool is_mirror_image(const ViewEvidence& view);

/// What can't be of a film that has points in space only: mirrored, not upright, seen from
/// elsewhere than its view's name says.
std::optional<Finding> wrong_space(const ViewEvidence& view);

/// How far an estimator's own points in space lie from what two pictures show; nothing where there
/// are fewer.
std::vector<SpaceAgreement> space_agreement(const Evidence& evidence, const Posture& posture);
/// The points are of another body, or of a mirror image.
bool is_gross(const SpaceAgreement& agreement);
/// What is to be said of it.
std::vector<Finding> findings(const std::vector<SpaceAgreement>& agreement);

}  // namespace rangecheck::posture
