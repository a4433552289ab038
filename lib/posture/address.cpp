// SPDX-License-Identifier: MIT
#include "posture/address.hpp"

#include <algorithm>
#include <cmath>

#include "posture/body.hpp"
#include "posture/camera_seen.hpp"
#include "posture/carried.hpp"
#include "posture/checks.hpp"
#include "posture/formulas.hpp"
#include "posture/moment.hpp"
#include "posture/position.hpp"
#include "posture/priors.hpp"
#include "posture/sources.hpp"
#include "posture/space.hpp"
#include "posture/space_fit.hpp"

namespace rangecheck::posture {
namespace {

/// Fewer body landmarks than this in every view leave nothing to stand on.
constexpr int least_landmarks = 6;

std::vector<LandmarkId> joints_of(const Evidence& evidence) {
  std::vector<LandmarkId> joints = body_joints();
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const LandmarkId id = landmark_at(i);
    const bool shown =
        std::any_of(evidence.views.begin(), evidence.views.end(), [&](const ViewEvidence& view) {
          return view.still.points.has(id) || view.still.spatial.has(id) ||
                 (id.joint == Joint::ball && view.ball);
        });
    const bool has_place = address_place(id, 1).has_value();
    if (shown && has_place && std::find(joints.begin(), joints.end(), id) == joints.end()) {
      joints.push_back(id);
    }
  }
  return joints;
}

bool enough(const ViewEvidence& view) {
  const auto joints = body_joints();
  return std::count_if(joints.begin(), joints.end(), [&](LandmarkId id) {
           return view.still.points.has(id) || view.still.spatial.has(id);
         }) >= least_landmarks;
}

std::vector<LandmarkId> evidenced_of(const Evidence& evidence, const Unknowns& unknowns) {
  std::vector<LandmarkId> out;
  for (const LandmarkId id : unknowns.joints()) {
    for (const auto& view : evidence.views) {
      if (view.still.points.has(id) || view.still.spatial.has(id) ||
          (id.joint == Joint::ball && view.ball)) {
        out.push_back(id);
        break;
      }
    }
  }
  return out;
}

/// The upper body turned about the vertical, to start from on both sides of a depth ambiguity.
Eigen::VectorXd turned_start(const Unknowns& unknowns, Eigen::VectorXd state, double open_m) {
  for (const Joint joint : {Joint::shoulder, Joint::elbow, Joint::ear}) {
    state[unknowns.joint(lead(joint)) + 2] -= open_m;
    state[unknowns.joint(trail(joint)) + 2] += open_m;
  }
  return state;
}

Solved best_of_starts(const Moment& moment, const Eigen::VectorXd& guess) {
  const Problem problem = moment.problem(guess);
  Solved best = solve(problem, guess);
  if (!depth_is_open(moment.evidence())) return best;
  for (const double open_m : {-0.12, 0.12}) {
    Solved other = solve(problem, turned_start(moment.unknowns(), guess, open_m));
    if (other.cost < best.cost) best = std::move(other);
  }
  return best;
}

/// Prior knowledge alone, at the same place: cameras fall out, since without films nothing ties
/// them to the body.
Eigen::MatrixXd prior_covariance(const Moment& moment, const Problem& problem,
                                 const Eigen::VectorXd& state) {
  const int joints = moment.unknowns().joint_count();
  const int body = Unknowns::first_joint + joints;
  const Eigen::MatrixXd h =
      problem.hessian(state, [](Source s) { return source::is_prior_knowledge(s); });
  return inverse(h.topLeftCorner(body, body)).bottomRightCorner(joints, joints);
}

/// By how much first-order spreads are too narrow for reasons that no residual shows.
double widening(const Evidence& evidence,
                const std::vector<std::pair<intake::View, Camera>>& cameras) {
  const double shape = depth_is_open(evidence) ? prior::one_film_widening : 1;
  return shape * std::max(1.0, off_place_deg(cameras) / clearly_off_place_deg);
}

/// From `evidence`, which is what can be used of what was `given`.
Result<AddressEstimate> estimate_from(const Evidence& evidence, const Evidence& given) {
  if (evidence.views.empty() ||
      std::none_of(evidence.views.begin(), evidence.views.end(), enough)) {
    return Error{Fault::not_a_film,
                 "fewer than " + std::to_string(least_landmarks) +
                     " landmarks of the body are seen at address",
                 {},
                 "film the whole body, feet and head in frame"};
  }
  const auto carried = std::make_shared<Carried>(evidence, joints_of(evidence));
  const Moment& moment = carried->moment();
  const Eigen::VectorXd first = best_of_starts(moment, moment.guess()).state;
  // Once more with the size of a metre in the picture taken from the solution.
  const Problem problem = moment.problem(first);
  const Solved solved = solve(problem, first);
  if (!solved.state.allFinite()) {
    return Error{Fault::disagreement,
                 "no body fits these landmarks",
                 {},
                 "check that the films show one golfer at address"};
  }

  const Eigen::MatrixXd information = problem.hessian(solved.state, [](Source) { return true; });
  const Eigen::MatrixXd covariance = inverse(information);
  const Unknowns& unknowns = moment.unknowns();
  const int at = Unknowns::first_joint, points = unknowns.joint_count();

  Posture out;
  out.landmarks = unknowns.joints();
  out.mean = solved.state.segment(at, points);
  out.stature = Length::metres(solved.state[unknowns.stature()]);
  out.evidenced = evidenced_of(evidence, unknowns);
  out.cameras = cameras_of(moment, solved.state);
  out.agreement = agreement(evidence, problem, solved.state, covariance);
  out.birge_ratio = birge_ratio(out.agreement);
  const double widen = std::pow(out.birge_ratio * widening(evidence, out.cameras), 2);
  out.covariance = widen * covariance.block(at, at, points, points);
  for (std::size_t v = 0; v < evidence.views.size(); ++v)
    if (moment.view(v).camera)
      out.cameras_seen.push_back(camera_seen(moment, v, solved.state, widen * covariance));
  out.prior_covariance = prior_covariance(moment, problem, solved.state);
  for (const Observation observation : missing_observations(evidence)) {
    out.missing.push_back(observation);
    out.covariance_with.push_back(widen *
                                  covariance_with(moment, information, solved.state, observation)
                                      .block(at, at, points, points));
  }
  out.space_agreement = space_agreement(given, out);
  out.findings = findings(moment, out);
  carried->keep(solved.state, information / widen, out.evidenced);
  return AddressEstimate{std::move(out), carried};
}

}  // namespace

Result<AddressEstimate> estimate_address_to_carry(const Evidence& given) {
  const Evidence evidence = usable(given);
  auto estimate = estimate_from(evidence, given);
  // Guesses of another body are told of, and nothing rests on them.
  if (estimate && std::ranges::any_of(estimate->posture.space_agreement, is_gross)) {
    estimate = estimate_from(without_guesses(evidence), given);
  }
  return estimate;
}

Result<Posture> estimate_address(const Evidence& evidence) {
  auto estimate = estimate_address_to_carry(evidence);
  if (!estimate) return estimate.error();
  return std::move(estimate->posture);
}

}  // namespace rangecheck::posture
