// SPDX-License-Identifier: MIT
#include "posture/moving.hpp"

#include <algorithm>
#include <cmath>

#include "posture/body.hpp"
#include "posture/checks.hpp"
#include "posture/formulas.hpp"
#include "posture/generic_pose.hpp"
#include "posture/motion_error.hpp"
#include "posture/priors.hpp"
#include "posture/sources.hpp"
#include "posture/space.hpp"
#include "posture/swing_priors.hpp"

namespace rangecheck::posture {
namespace {

/// A knee may be seen behind the line hip–ankle only as far as it turns with the leg: the sign of
/// its bend is known up to impact.
constexpr double last_phase_of_bent_knees = 6.5;

prior::FootStays feet_at(double phase) {
  const auto at = prior::between_positions(phase);
  const auto &a = prior::feet_stay[at.low], &b = prior::feet_stay[at.low + 1];
  return {at.mix(a.lead_sigma_m, b.lead_sigma_m), at.mix(a.lead_up_sigma_m, b.lead_up_sigma_m),
          at.mix(a.trail_toe_sigma_m, b.trail_toe_sigma_m),
          at.mix(a.trail_heel_sigma_m, b.trail_heel_sigma_m)};
}

/// A delay is not estimated: how fast each point seems to move is too unsure, and where films
/// disagree about that they would seem to know the delay. It is held, and what it may be is added
/// to the covariance afterwards (a "consider" parameter: Schmidt 1966, from memory).
constexpr double held_delay_s = 1e-6;

bool is_arm_or_club(Joint joint) {
  return joint == Joint::elbow || joint == Joint::wrist || joint >= Joint::thumb_1 ||
         (joint >= Joint::grip_end && joint <= Joint::club_toe);
}

/// Several films of several swings each show their own.
double take_sigma_m(Joint joint, bool several_takes) {
  if (!several_takes) return 0;
  return is_arm_or_club(joint) ? prior::arms_take_to_take_in_motion_sigma_m
                               : prior::take_to_take_in_motion_sigma_m;
}

/// Joints that the step priors know, or that move with the ball.
bool has_place(LandmarkId id) {
  if (id.joint == Joint::ball || id.joint == Joint::ankle || id.joint == Joint::heel ||
      id.joint == Joint::big_toe || id.joint == Joint::small_toe) {
    return true;
  }
  return std::any_of(prior::motion_steps.begin(), prior::motion_steps.end(),
                     [id](const prior::MotionStep& step) { return step.joint == id.joint; });
}

std::vector<LandmarkId> parents_of(LandmarkId id, Joint parent) {
  if (id.side != Side::centre) return {{id.side, parent}};
  return {lead(parent), trail(parent)};
}

}  // namespace

Moving::Moving(const Carried& carried, const PositionEvidence& evidence)
    : carried_(carried), evidence_(evidence), held_(static_cast<int>(carried.state().size())) {
  LandmarkMap<Point> at_address;
  for (const LandmarkId id : carried.moment().unknowns().joints()) {
    at_address[id] = carried.joint(id);
    if (!has_place(id)) continue;
    place_[id] = held_ + 3 * static_cast<int>(joints_.size());
    joints_.push_back(id);
  }
  const double stature_m = carried.state()[carried.moment().unknowns().stature()];
  generic_ = generic_pose(at_address, stature_m, evidence.phase);
  const LandmarkId ball = centre(Joint::ball);
  generic_[ball] = at_address[ball];
  for (std::size_t view = 0; view < evidence.views.size(); ++view) {
    frame_.emplace_back();
    const ViewEvidence& address = carried.evidence().views[view];
    const auto& at = carried.moment().view(view).spatial;
    if (!at || !evidence.views[view] || !space_counts(address)) continue;
    // What was measured stays in one frame; a guess has its own in each picture.
    frame_[view] =
        is_measured(address.space) ? *at : first_frame() + Unknowns::per_spatial * frames_++;
  }
}

bool Moving::shown(std::size_t view, LandmarkId id) const {
  const auto& film = evidence_.views[view];
  if (!film) return false;
  const bool pictured = film->points.has(id) && carried_.moment().view(view).camera;
  return pictured || (frame_[view] && film->spatial.has(id));
}

std::vector<LandmarkId> Moving::evidenced() const {
  std::vector<LandmarkId> out;
  for (const LandmarkId id : joints_) {
    bool seen = false;
    for (std::size_t view = 0; view < evidence_.views.size(); ++view) {
      seen = seen || shown(view, id);
    }
    const auto& then = carried_.evidenced();
    const bool lay =
        id.joint == Joint::ball && std::find(then.begin(), then.end(), id) != then.end();
    if (id.joint == Joint::ball ? lay : seen) out.push_back(id);
  }
  return out;
}

Eigen::VectorXd Moving::guess() const {
  Eigen::VectorXd state = Eigen::VectorXd::Zero(size());
  state.head(held_) = carried_.state();
  for (const LandmarkId id : joints_) state.segment<3>(joint(id)) = *generic_[id];
  for (std::size_t view = 0; view < frame_.size(); ++view) {
    if (!frame_[view] || *frame_[view] < held_) continue;
    state.segment<Unknowns::per_spatial>(*frame_[view]) =
        state.segment<Unknowns::per_spatial>(*carried_.moment().view(view).spatial);
  }
  return state;
}

Problem Moving::problem(const Eigen::VectorXd& state) const {
  Problem problem(size());
  add_steps(problem);
  add_lengths(problem);
  add_feet(problem);
  add_delays(problem);
  for (std::size_t view = 0; view < evidence_.views.size(); ++view) {
    if (carried_.moment().view(view).camera) add_film(problem, view, state);
    if (frame_[view]) add_film_in_space(problem, view);
  }
  return problem;
}

void Moving::add_steps(Problem& problem) const {
  const double stature_m = carried_.state()[carried_.moment().unknowns().stature()];
  for (const LandmarkId id : joints_) {
    const auto step = std::find_if(prior::motion_steps.begin(), prior::motion_steps.end(),
                                   [id](const auto& each) { return each.joint == id.joint; });
    if (step == prior::motion_steps.end()) continue;
    for (const LandmarkId parent : parents_of(id, step->parent)) {
      if (!place_.has(parent)) continue;
      problem.add<3, 6>(source::prior, runs<3, 3>({joint(id), joint(parent)}),
                        StepNear{*generic_[id] - *generic_[parent],
                                 Eigen::Vector3d::Constant(step->sigma * stature_m)});
    }
  }
  problem.add<1, 6>(source::prior,
                    runs<3, 3>({joint(lead(Joint::wrist)), joint(trail(Joint::wrist))}),
                    Distance{prior::wrist_to_wrist_m.mean, prior::wrist_to_wrist_m.sigma});
  add_turns(problem);
  add_long_arms(problem);
  if (evidence_.phase > last_phase_of_bent_knees) return;
  for (const Side side : {Side::lead, Side::trail}) {
    problem.add<1, 9>(source::prior,
                      runs<3, 3, 3>({joint({side, Joint::hip}), joint({side, Joint::knee}),
                                     joint({side, Joint::ankle})}),
                      BendsOneWay{+1, prior::wrong_bend_sigma_m});
  }
}

void Moving::add_turns(Problem& problem) const {
  const auto add = [&](Joint of, double sigma_rad) {
    const Point line = *generic_[lead(of)] - *generic_[trail(of)];
    problem.add<1, 6>(source::prior, runs<3, 3>({joint(lead(of)), joint(trail(of))}),
                      LineOpen{std::atan2(-line.z(), line.x()), sigma_rad});
  };
  add(Joint::hip, prior::pelvis_turn_sigma_rad);
  add(Joint::shoulder, prior::chest_turn_sigma_rad);
}

void Moving::add_long_arms(Problem& problem) const {
  const auto add = [&](Side side) {
    problem.add<1, 9>(source::prior,
                      runs<3, 3, 3>({joint({side, Joint::shoulder}), joint({side, Joint::elbow}),
                                     joint({side, Joint::wrist})}),
                      LongArm{prior::long_arm, prior::long_arm_sigma});
  };
  const double phase = evidence_.phase;
  if (phase <= prior::lead_arm_long_until) add(Side::lead);
  if (phase >= prior::trail_arm_long_from && phase <= prior::trail_arm_long_until) add(Side::trail);
}

void Moving::add_lengths(Problem& problem) const {
  const Unknowns& then = carried_.moment().unknowns();
  for (const auto& kept : prior::kept_lengths) {
    if (!place_.has(kept.from) || !place_.has(kept.to)) continue;
    problem.add<1, 12>(source::prior,
                       runs<3, 3, 3, 3>({joint(kept.from), joint(kept.to), then.joint(kept.from),
                                         then.joint(kept.to)}),
                       EqualLength{kept.sigma_m});
  }
  const auto trunk = [](const auto& at) {
    return std::array{at(lead(Joint::hip)), at(trail(Joint::hip)), at(lead(Joint::shoulder)),
                      at(trail(Joint::shoulder))};
  };
  const auto now = trunk([this](LandmarkId id) { return joint(id); });
  const auto before = trunk([&then](LandmarkId id) { return then.joint(id); });
  problem.add<1, 24>(source::prior,
                     runs<3, 3, 3, 3, 3, 3, 3, 3>({now[0], now[1], now[2], now[3], before[0],
                                                   before[1], before[2], before[3]}),
                     TrunkKept{prior::kept_trunk_sigma_m});
}

void Moving::add_feet(Problem& problem) const {
  const Unknowns& then = carried_.moment().unknowns();
  const prior::FootStays stays = feet_at(evidence_.phase);
  const auto add = [&](LandmarkId id, double along_m, double up_m) {
    if (!place_.has(id)) return;
    problem.add<3, 6>(source::prior, runs<3, 3>({joint(id), then.joint(id)}),
                      StepNear{*generic_[id] - carried_.joint(id), {along_m, up_m, along_m}});
  };
  for (const Joint each : {Joint::heel, Joint::big_toe, Joint::small_toe, Joint::ankle}) {
    add(lead(each), stays.lead_sigma_m, stays.lead_up_sigma_m);
  }
  for (const Joint each : {Joint::heel, Joint::ankle}) {
    add(trail(each), stays.trail_heel_sigma_m, stays.trail_heel_sigma_m);
  }
  for (const Joint each : {Joint::big_toe, Joint::small_toe}) {
    add(trail(each), stays.trail_toe_sigma_m, stays.trail_toe_sigma_m);
  }
  add(centre(Joint::ball), prior::ball_stays_sigma_m, prior::ball_stays_sigma_m);
}

void Moving::add_delays(Problem& problem) const {
  for (int i = 0; i < delays(); ++i) {
    problem.add<1, 1>(source::prior, std::array{size() - delays() + i}, Near{0, held_delay_s});
  }
}

Eigen::MatrixXd Moving::with_delays(const Eigen::MatrixXd& information,
                                    const Eigen::MatrixXd& covariance) const {
  Eigen::MatrixXd out = covariance;
  for (int i = 0; i < delays(); ++i) {
    double u_s = 0;
    for (std::size_t view = 0; view < evidence_.views.size(); ++view) {
      const auto& film = evidence_.views[view];
      if (film && delay(view) == size() - delays() + i)
        u_s = std::max(u_s, film->standard_uncertainty.in_seconds());
    }
    // What a second of delay would move the rest of the state by.
    Eigen::VectorXd pull = information.col(size() - delays() + i).head(size());
    pull.tail(delays()).setZero();
    const Eigen::VectorXd moves = covariance.topLeftCorner(size(), size()) * pull;
    out.topLeftCorner(size(), size()) += u_s * u_s * moves * moves.transpose();
  }
  return out;
}

void Moving::add_film(Problem& problem, std::size_t view, const Eigen::VectorXd& state) const {
  const auto& film = evidence_.views[view];
  if (!film) return;
  const ViewEvidence& address = carried_.evidence().views[view];
  const ViewUnknowns& at = carried_.moment().view(view);
  const bool several_takes = carried_.evidence().views.size() > 1 && !evidence_.same_swing;
  for (const LandmarkId id : joints_) {
    const auto& point = film->points[id];
    if (!point || id.joint == Joint::ball) continue;
    const double scale = px_per_metre(*at.camera, address.view, joint(id), state);
    const MotionError error =
        motion_error(address.estimator, address.view, id, point->confidence, evidence_.phase);
    const Eigen::Vector2d velocity(point->velocity_px_s.x_px, point->velocity_px_s.y_px);
    const double take_m = take_sigma_m(id.joint, several_takes);
    // The pull of a side view's shoulders is an unknown of its own at address.
    const bool again = address.still.points.has(id) && !(at.pull && id.joint == Joint::shoulder);
    const int then = carried_.moment().unknowns().joint(id);
    Seen first{nominal_axes(address.view), Eigen::Vector2d::Zero(), Eigen::Vector2d::Ones()};
    Eigen::Vector2d kept_px = scale * error.kept * error.address_sigma_m;
    Eigen::Vector2d ratio = Eigen::Vector2d::Zero();
    if (again) {
      const ShownAtAddress shown = shown_at_address(address, at, id, then, several_takes, state);
      first = shown.seen;
      // Of the error at address so much is the film's own (the rest jitter and take).
      ratio = shown.bias_sigma_px.cwiseQuotient(first.sigma_px);
    }
    Eigen::Vector2d sigma_px;
    for (int i = 0; i < 2; ++i) {
      const double not_known = kept_px[i] * std::sqrt(std::max(0.0, 1 - ratio[i] * ratio[i]));
      sigma_px[i] = std::sqrt(std::pow(not_known, 2) +
                              std::pow(scale * std::hypot(error.new_sigma_m, take_m), 2) +
                              std::pow(point->jitter_u_px, 2) + std::pow(blur_s * velocity[i], 2));
    }
    const InMotion<Seen> now{
        {nominal_axes(address.view), from_centre(point->at, address.image) - scale * error.bias_m,
         sigma_px},
        velocity};
    if (!again) {
      problem.add<2, 11>(source::film(view), runs<3, 7, 1>({joint(id), *at.camera, delay(view)}),
                         now);
      continue;
    }
    problem.add<2, 14>(
        source::film(view), runs<3, 7, 1, 3>({joint(id), *at.camera, delay(view), then}),
        InMotionAgain<Seen>{now, first, kept_px.cwiseProduct(ratio).cwiseQuotient(sigma_px)});
  }
}

void Moving::add_film_in_space(Problem& problem, std::size_t view) const {
  const auto& film = *evidence_.views[view];
  const ViewEvidence& address = carried_.evidence().views[view];
  const SpaceKind kind = kind_of(address);
  const int frame = *frame_[view];
  const bool same_frame = frame < held_;
  if (!same_frame) add_space_frame(problem, frame, kind);
  const bool several_takes = carried_.evidence().views.size() > 1 && !evidence_.same_swing;
  for (const LandmarkId id : joints_) {
    const auto& point = film.spatial[id];
    if (!point || id.joint == Joint::ball) continue;
    const SpaceMotionError error = space_motion_error(kind, id, point->confidence, evidence_.phase);
    const Eigen::Vector3d at_m(point->at_m.data()), velocity_m_s(point->velocity_m_s.data());
    // A guess in a frame of its own is wrong in a new way each time.
    const bool again = same_frame && address.still.spatial.has(id);
    const double kept = again ? 0 : error.kept, take_m = take_sigma_m(id.joint, several_takes);
    const Eigen::Vector3d sigma_m =
        (kept * kept * error.address_sigma_m.array().square() + error.new_sigma_m.array().square() +
         blur_s * blur_s * velocity_m_s.array().square() + take_m * take_m +
         point->jitter_u_m * point->jitter_u_m)
            .sqrt();
    const InMotion<SeenInSpace> now{{nominal_axes(address.view), at_m - error.bias_m, sigma_m},
                                    velocity_m_s};
    if (!again) {
      problem.add<3, 11>(source::space(view), runs<3, 7, 1>({joint(id), frame, delay(view)}), now);
      continue;
    }
    const SeenInSpace then = placed_at_address(address, id, several_takes);
    // Of the error at address so much is the film's own (the rest is the take's).
    const Eigen::Vector3d own = error.address_sigma_m.cwiseQuotient(then.sigma_m);
    problem.add<3, 14>(
        source::space(view),
        runs<3, 7, 1, 3>({joint(id), frame, delay(view), carried_.moment().unknowns().joint(id)}),
        InMotionAgain<SeenInSpace>{
            now, then,
            error.kept * error.address_sigma_m.cwiseProduct(own).cwiseQuotient(sigma_m)});
  }
}

Eigen::MatrixXd Moving::with_open_depth(const Eigen::MatrixXd& covariance) const {
  const auto& views = carried_.evidence().views;
  if (!depth_is_open(carried_.evidence())) return covariance;
  const Eigen::Vector3d sight = nominal_axes(views.front().view).row(2).transpose();
  Eigen::MatrixXd out = covariance;
  const auto add = [&](const Eigen::VectorXd& mode, double sigma_m) {
    out.noalias() += sigma_m * sigma_m * mode * mode.transpose();
  };
  for (const auto& depth : prior::one_film_depth) {
    Eigen::VectorXd lead_mode = Eigen::VectorXd::Zero(covariance.rows()), trail_mode = lead_mode;
    lead_mode.segment<3>(joint(lead(depth.joint))) = sight;
    trail_mode.segment<3>(joint(trail(depth.joint))) = sight;
    if (depth.of_pair) {
      add((lead_mode - trail_mode) / 2, depth.sigma_m);
    } else {
      add(lead_mode, depth.sigma_m);
      add(trail_mode, depth.sigma_m);
    }
  }
  return out;
}

Eigen::MatrixXd Moving::covariance_with_film(const Eigen::MatrixXd& information,
                                             const Eigen::VectorXd& state) const {
  const Eigen::Index size = state.size() + Unknowns::per_camera;
  Eigen::VectorXd extended = Eigen::VectorXd::Zero(size);
  extended.head(state.size()) = state;
  Problem problem(static_cast<int>(size));
  const intake::View view = carried_.evidence().views.front().view == intake::View::face_on
                                ? intake::View::down_the_line
                                : intake::View::face_on;
  const ImaginedFilm film(problem, extended, view);
  for (const LandmarkId id : body_joints()) {
    film.show(id, carried_.moment().unknowns().joint(id), prior::take_to_take_sigma_m);
    const MotionError error =
        motion_error(intake::Estimator::unknown, view, id, 1, evidence_.phase);
    film.show(id, joint(id), std::hypot(error.new_sigma_m, take_sigma_m(id.joint, true)));
  }
  Eigen::MatrixXd h = problem.hessian(extended, [](Source) { return true; });
  h.topLeftCorner(state.size(), state.size()) += information;
  return inverse(h).topLeftCorner(state.size(), state.size());
}

}  // namespace rangecheck::posture
