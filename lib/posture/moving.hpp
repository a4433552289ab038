// SPDX-License-Identifier: MIT
// The moving body as an estimation problem beside the solved address. Inside posture only.
#pragma once

#include <optional>
#include <vector>

#include "posture/carried.hpp"
#include "posture/position.hpp"

namespace rangecheck::posture {

/// One moment of the swing: its unknowns follow those of address in the state vector,
///   [ address's state | 3 per joint (m, golfer frame) | 7 per film whose points in space have a
///     new frame in each picture | 1 per film: how much later the true moment is than the one
///     looked at (s) ].
/// Refers to what it is made from, which must outlive it.
class Moving {
 public:
  Moving(const Carried& carried, const PositionEvidence& evidence);

  const std::vector<LandmarkId>& joints() const { return joints_; }
  /// The film shows the landmark, in its picture or in space.
  bool shown(std::size_t view, LandmarkId id) const;
  /// Landmarks that a film shows at this moment, and the ball where address had it.
  std::vector<LandmarkId> evidenced() const;
  int first_joint() const { return held_; }
  int size() const { return first_frame() + Unknowns::per_spatial * frames_ + delays(); }

  /// Address as solved, and the body where golfers are on the whole at that phase.
  Eigen::VectorXd guess() const;
  /// All factors but address's information; `state` sets the size of a metre in each picture.
  Problem problem(const Eigen::VectorXd& state) const;
  /// `covariance` (the inverse of `information`) with what the moments may be late or early by.
  Eigen::MatrixXd with_delays(const Eigen::MatrixXd& information,
                              const Eigen::MatrixXd& covariance) const;
  /// `covariance` with what one film alone leaves open along its line of sight
  /// (prior::one_film_depth); of two films nothing.
  Eigen::MatrixXd with_open_depth(const Eigen::MatrixXd& covariance) const;
  /// Covariance of the state had the other view been filmed too, at address and now.
  Eigen::MatrixXd covariance_with_film(const Eigen::MatrixXd& information,
                                       const Eigen::VectorXd& state) const;

 private:
  int joint(LandmarkId id) const { return *place_[id]; }
  int delays() const { return evidence_.same_swing ? 1 : static_cast<int>(evidence_.views.size()); }
  int delay(std::size_t view) const {
    return size() - delays() + (evidence_.same_swing ? 0 : static_cast<int>(view));
  }
  int first_frame() const { return held_ + 3 * static_cast<int>(joints_.size()); }
  bool carries(LandmarkId id) const { return carried_.moment().unknowns().has(id); }

  void add_steps(Problem& problem) const;
  void add_turns(Problem& problem) const;
  void add_long_arms(Problem& problem) const;
  void add_lengths(Problem& problem) const;
  void add_feet(Problem& problem) const;
  void add_film(Problem& problem, std::size_t view, const Eigen::VectorXd& state) const;
  void add_film_in_space(Problem& problem, std::size_t view) const;
  void add_delays(Problem& problem) const;

  const Carried& carried_;
  const PositionEvidence& evidence_;
  int held_;
  int frames_ = 0;
  std::vector<std::optional<int>> frame_;  ///< of each film, where its points in space count
  std::vector<LandmarkId> joints_;
  LandmarkMap<int> place_;
  LandmarkMap<Point> generic_;
};

}  // namespace rangecheck::posture
