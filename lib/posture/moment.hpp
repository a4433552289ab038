// SPDX-License-Identifier: MIT
#pragma once

#include <utility>
#include <vector>

#include "posture/address.hpp"
#include "posture/problem.hpp"
#include "posture/unknowns.hpp"
#include "posture/views.hpp"

namespace rangecheck::posture {

/// One still moment as an estimation problem: its unknowns, first guess and factors. Refers to the
/// evidence that it is made from, which must outlive it.
class Moment {
 public:
  Moment(const Evidence& evidence, std::vector<LandmarkId> joints);

  const Evidence& evidence() const { return evidence_; }
  const Unknowns& unknowns() const { return unknowns_; }
  const ViewUnknowns& view(std::size_t number) const { return views_[number]; }

  /// Where prior knowledge and the look of each picture put everything.
  Eigen::VectorXd guess() const;
  /// All factors; `state` sets the size of a metre in each picture.
  Problem problem(const Eigen::VectorXd& state) const;

 private:
  const Evidence& evidence_;
  Unknowns unknowns_;
  std::vector<ViewUnknowns> views_;
};

/// The cameras of the films that have a picture, at `state` (which may go on after the moment's own
/// unknowns).
std::vector<std::pair<intake::View, Camera>> cameras_of(const Moment& moment,
                                                        const Eigen::VectorXd& state);

}  // namespace rangecheck::posture
