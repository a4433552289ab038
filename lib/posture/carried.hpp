// SPDX-License-Identifier: MIT
// What address leaves for later positions. Inside posture only.
#pragma once

#include <utility>

#include "posture/moment.hpp"

namespace rangecheck::posture {

/// The solved address: its evidence, where each unknown sits, the solution and its information.
class Carried {
 public:
  Carried(Evidence evidence, std::vector<LandmarkId> joints)
      : evidence_(std::move(evidence)), moment_(evidence_, std::move(joints)) {}
  // The moment refers to the evidence beside it.
  Carried(const Carried&) = delete;
  Carried& operator=(const Carried&) = delete;

  const Evidence& evidence() const { return evidence_; }
  const Moment& moment() const { return moment_; }
  const Eigen::VectorXd& state() const { return state_; }
  const Eigen::MatrixXd& information() const { return information_; }
  const std::vector<LandmarkId>& evidenced() const { return evidenced_; }

  /// `information` is the inverse of the state's covariance, every widening included.
  void keep(Eigen::VectorXd state, Eigen::MatrixXd information, std::vector<LandmarkId> evidenced) {
    state_ = std::move(state);
    information_ = std::move(information);
    evidenced_ = std::move(evidenced);
  }

  /// The joint at address, metres; the moment must have it.
  Point joint(LandmarkId id) const { return state_.segment<3>(moment_.unknowns().joint(id)); }

 private:
  Evidence evidence_;
  Moment moment_;
  Eigen::VectorXd state_;
  Eigen::MatrixXd information_;
  std::vector<LandmarkId> evidenced_;
};

}  // namespace rangecheck::posture
