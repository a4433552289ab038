// SPDX-License-Identifier: MIT
#pragma once

#include <utility>
#include <vector>

#include "posture/moment.hpp"

namespace rangecheck::posture {

/// How each source's residuals compare with what its own spread allows: chi-square against its
/// expectation, and the largest standardised residual (data snooping: Baarda 1968, "A testing
/// procedure for use in geodetic networks"). `covariance` is of the whole state.
std::vector<Agreement> agreement(const Evidence& evidence, const Problem& problem,
                                 const Eigen::VectorXd& state, const Eigen::MatrixXd& covariance);

/// √(chi-square / freedom) of all films together, at least 1 (Birge 1932): by how much a poor fit
/// widens everything.
double birge_ratio(const std::vector<Agreement>& agreement);

/// How far the cameras stand from where their views' names put them, degrees: one film alone by
/// prior knowledge, two by the angle between them, which a turned golfer leaves alone.
double off_place_deg(const std::vector<std::pair<intake::View, Camera>>& cameras);
/// Half as far again as the spread that prior knowledge gives a camera: then it is a poor guide,
/// said so, and every uncertainty widens in proportion.
inline constexpr double clearly_off_place_deg = 8;

/// A film from where `view` says, of a body as it is. Its camera's seven unknowns are the last of
/// `state`, and set by this.
class ImaginedFilm {
 public:
  ImaginedFilm(Problem& problem, Eigen::VectorXd& state, intake::View view);
  /// The joint whose unknowns begin at `joint` is seen where it is, as well as estimators see it
  /// and `more_sigma_m` less well.
  void show(LandmarkId id, int joint, double more_sigma_m) const;

 private:
  Problem& problem_;
  const Eigen::VectorXd& state_;
  intake::View view_;
  int camera_;
  double px_per_metre_ = 0;
};

/// What could have been observed and was not.
std::vector<Observation> missing_observations(const Evidence& evidence);

/// Covariance of the state had `observation` been there too, seen as the rest of the estimate
/// predicts it. `information` is the Gauss–Newton Hessian of what was observed.
Eigen::MatrixXd covariance_with(const Moment& moment, const Eigen::MatrixXd& information,
                                const Eigen::VectorXd& state, Observation observation);

/// What the estimate says of its own evidence: a film under the wrong view's name, a stature that
/// can't be, films that don't fit one body.
std::vector<Finding> findings(const Moment& moment, const Posture& posture);

}  // namespace rangecheck::posture
