// SPDX-License-Identifier: MIT
#include "posture/position.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <array>
#include <cmath>

#include "posture/body.hpp"
#include "posture/carried.hpp"
#include "posture/checks.hpp"
#include "posture/formulas.hpp"
#include "posture/moving.hpp"
#include "posture/sources.hpp"
#include "posture/space.hpp"
#include "posture/swing_priors.hpp"

namespace rangecheck::posture {
namespace {

/// Fewer body landmarks than this in every film leave nothing to stand on.
constexpr int least_landmarks = 6;
/// After the body is found with address held, both are moved together this often: the second step
/// changes less than a millimetre.
constexpr int joint_steps = 2;

bool enough(const Moving& moving, std::size_t film) {
  const auto joints = body_joints();
  return std::count_if(joints.begin(), joints.end(),
                       [&](LandmarkId id) { return moving.shown(film, id); }) >= least_landmarks;
}

bool enough(const Moving& moving, const PositionEvidence& evidence) {
  for (std::size_t film = 0; film < evidence.views.size(); ++film) {
    if (enough(moving, film)) return true;
  }
  return false;
}

/// The moving body's problem over the address's unknowns (held by their information) and its own.
class JointEstimate {
 public:
  JointEstimate(const Carried& carried, const Moving& moving)
      : carried_(carried), moving_(moving), state_(moving.guess()) {
    solve_body();
    for (int step = 0; step < joint_steps; ++step) step_together();
  }

  const Eigen::VectorXd& state() const { return state_; }
  Problem problem() const { return moving_.problem(state_); }

  /// Information of everything that `wanted` accepts and of address.
  template <class Wanted>
  Eigen::MatrixXd information(const Problem& problem, Wanted wanted) const {
    Eigen::MatrixXd h = problem.hessian(state_, wanted);
    h.topLeftCorner(held(), held()) += carried_.information();
    return h;
  }

 private:
  int held() const { return static_cast<int>(carried_.state().size()); }

  void solve_body() {
    state_ = solve(problem(), state_, held()).state;
    // Once more with the size of a metre in the picture taken from the solution.
    state_ = solve(problem(), state_, held()).state;
  }

  /// One Gauss–Newton step of address and moving body together.
  void step_together() {
    auto [cost, gradient, h] = problem().linearised(state_);
    h.topLeftCorner(held(), held()) += carried_.information();
    gradient.head(held()) += carried_.information() * (state_.head(held()) - carried_.state());
    state_ -= h.llt().solve(gradient);
  }

  const Carried& carried_;
  const Moving& moving_;
  Eigen::VectorXd state_;
};

/// Rows of the moving joints, then of the address joints, in the joint state.
Eigen::VectorXi rows_of(const Carried& carried, const Moving& moving) {
  const int at_address = carried.moment().unknowns().joint_count();
  const int now = 3 * static_cast<int>(moving.joints().size());
  Eigen::VectorXi rows(now + at_address);
  for (int i = 0; i < now; ++i) rows[i] = moving.first_joint() + i;
  for (int i = 0; i < at_address; ++i) rows[now + i] = Unknowns::first_joint + i;
  return rows;
}

/// The film that is not there, were it there both at address and now.
std::optional<Observation> missing_film(const Carried& carried) {
  const auto& views = carried.evidence().views;
  if (views.size() != 1) return std::nullopt;
  return views.front().view == intake::View::face_on ? Observation::down_the_line_film
                                                     : Observation::face_on_film;
}

}  // namespace

Result<Posture> estimate_position(const Carried& carried, const PositionEvidence& evidence) {
  const Moving moving(carried, evidence);
  if (!enough(moving, evidence)) {
    return Error{
        Fault::not_a_film,
        "fewer than " + std::to_string(least_landmarks) + " landmarks of the body are seen there",
        {},
        "film the whole swing with the whole body in frame"};
  }
  const JointEstimate estimate(carried, moving);
  if (!estimate.state().allFinite()) {
    return Error{Fault::disagreement,
                 "no body fits the landmarks there",
                 {},
                 "check that the films show one golfer"};
  }
  const Problem problem = estimate.problem();
  const Eigen::MatrixXd information = estimate.information(problem, [](Source) { return true; });
  const Eigen::MatrixXd covariance = inverse(information);
  const Eigen::VectorXi rows = rows_of(carried, moving);

  Posture out;
  out.landmarks = moving.joints();
  out.address_landmarks = carried.moment().unknowns().joints();
  out.mean = estimate.state()(rows);
  out.stature = Length::metres(estimate.state()[carried.moment().unknowns().stature()]);
  out.evidenced = moving.evidenced();
  out.cameras = cameras_of(carried.moment(), estimate.state());
  out.agreement = agreement(carried.evidence(), problem, estimate.state(), covariance);
  out.birge_ratio = birge_ratio(out.agreement);
  const double shape = depth_is_open(carried.evidence()) ? prior::one_film_in_motion_widening : 1;
  const double widen = std::pow(out.birge_ratio * shape, 2);
  out.covariance =
      moving.with_open_depth(moving.with_delays(information, widen * covariance))(rows, rows);
  out.prior_covariance = inverse(estimate.information(
      problem, [](Source s) { return source::is_prior_knowledge(s); }))(rows, rows);
  if (const auto film = missing_film(carried)) {
    out.missing.push_back(*film);
    const Eigen::MatrixXd with = moving.covariance_with_film(information, estimate.state());
    out.covariance_with.push_back(moving.with_delays(information, widen * with)(rows, rows));
  }
  return out;
}

}  // namespace rangecheck::posture
