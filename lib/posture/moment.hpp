// SPDX-License-Identifier: MIT
#pragma once

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

}  // namespace rangecheck::posture
