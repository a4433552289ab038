// SPDX-License-Identifier: MIT
#include "posture/moment.hpp"

#include "posture/body.hpp"
#include "posture/priors.hpp"

namespace rangecheck::posture {

Moment::Moment(const Evidence& evidence, std::vector<LandmarkId> joints)
    : evidence_(evidence), unknowns_(std::move(joints)) {
  for (const auto& view : evidence.views) views_.push_back(reserve(unknowns_, view));
}

Eigen::VectorXd Moment::guess() const {
  Eigen::VectorXd state = Eigen::VectorXd::Zero(unknowns_.size());
  const double stature = evidence_.stature ? evidence_.stature->in_metres() : prior::stature_m.mean;
  state[unknowns_.stature()] = stature;
  for (const LandmarkId id : unknowns_.joints()) {
    state.segment<3>(unknowns_.joint(id)) = *address_place(id, stature);
  }
  for (std::size_t v = 0; v < views_.size(); ++v) {
    posture::guess(evidence_.views[v], views_[v], unknowns_, state);
  }
  return state;
}

Problem Moment::problem(const Eigen::VectorXd& state) const {
  Problem problem(unknowns_.size());
  add_body(problem, unknowns_);
  if (evidence_.stature) add_stature(problem, unknowns_, *evidence_.stature);
  if (evidence_.foot) add_foot(problem, unknowns_, *evidence_.foot);
  const bool several_takes = evidence_.views.size() > 1 && !evidence_.same_swing;
  for (std::size_t v = 0; v < views_.size(); ++v) {
    add_view(problem, unknowns_, evidence_.views[v], views_[v], v, several_takes, state);
  }
  return problem;
}

}  // namespace rangecheck::posture
