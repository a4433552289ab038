// SPDX-License-Identifier: MIT
#include "posture/moment.hpp"

#include <algorithm>

#include "posture/body.hpp"
#include "posture/priors.hpp"
#include "posture/space.hpp"

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
  const bool drawn = std::all_of(evidence_.views.begin(), evidence_.views.end(),
                                 [](const auto& view) { return view.picture_is_drawn; });
  if (drawn) add_balance(problem, unknowns_);
  return problem;
}

std::vector<std::pair<intake::View, Camera>> cameras_of(const Moment& moment,
                                                        const Eigen::VectorXd& state) {
  std::vector<std::pair<intake::View, Camera>> out;
  const auto& views = moment.evidence().views;
  for (std::size_t v = 0; v < views.size(); ++v) {
    const auto& camera = moment.view(v).camera;
    if (camera) out.emplace_back(views[v].view, camera_of(views[v], *camera, state));
  }
  return out;
}

}  // namespace rangecheck::posture
