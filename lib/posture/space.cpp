// SPDX-License-Identifier: MIT
#include "posture/space.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "posture/body.hpp"
#include "posture/priors.hpp"
#include "posture/sources.hpp"
#include "posture/space_fit.hpp"
#include "posture/space_formulas.hpp"

namespace rangecheck::posture {
namespace {

/// Fewer points than a turn, a scale and a shift take up say nothing.
constexpr int least_points = 6;

Eigen::Vector3d at_m(const motion::StillSpatialPoint& point) {
  return {point.x_m, point.y_m, point.z_m};
}

/// As the Gibbs vector that `turned` takes, which has no half turns: what lies so is refused
/// anyway.
Eigen::Vector3d gibbs(const Eigen::Matrix3d& turn) {
  constexpr double most_rad = 2.5;
  const Eigen::AngleAxisd about(turn);
  return std::tan(std::min(about.angle(), most_rad) / 2) * about.axis();
}

/// Whether a point guessed beside a picture helps: those of feet, far from the hips that it starts
/// from, do not (rendered films: from in front errors were 4 % larger with them, 7 % smaller
/// without).
bool guess_helps(LandmarkId id) {
  return id.joint != Joint::ankle && id.joint != Joint::heel && id.joint != Joint::big_toe;
}

bool has_space(const ViewEvidence& view) {
  const auto& spatial = view.still.spatial.values();
  return std::count_if(spatial.begin(), spatial.end(),
                       [](const auto& point) { return point.has_value(); }) >= least_points;
}

}  // namespace

SpaceKind kind_of(const ViewEvidence& view) { return {view.space, view.estimator, view.view}; }

bool space_counts(const ViewEvidence& view) {
  return has_space(view) && (view.picture_is_drawn || is_measured(view.space));
}

bool depth_is_open(const Evidence& evidence) {
  if (evidence.views.size() != 1) return false;
  const ViewEvidence& view = evidence.views.front();
  return !(space_counts(view) && is_measured(view.space));
}

Evidence usable(Evidence evidence) {
  for (auto& view : evidence.views) {
    // Guessed points that are another body's mirror image would only do harm beside a picture.
    if (!space_counts(view) && is_mirror_image(view)) view.still.spatial = {};
    if (!view.picture_is_drawn) continue;
    view.still.points = {};
    view.ball.reset();
    view.target_line.reset();
    view.camera = {};
  }
  return evidence;
}

Evidence without_guesses(Evidence evidence) {
  for (auto& view : evidence.views) {
    if (!space_counts(view)) view.still.spatial = {};
  }
  return evidence;
}

void reserve_space(Unknowns& unknowns, const ViewEvidence& view, ViewUnknowns& at) {
  if (!has_space(view)) return;
  at.spatial = unknowns.add_spatial();
  if (space_counts(view) && space_pull(kind_of(view))) at.space_pull = unknowns.add_pull();
}

void guess_space(const ViewEvidence& view, const ViewUnknowns& at, const Unknowns& unknowns,
                 Eigen::VectorXd& state) {
  if (!at.spatial) return;
  state.segment<Unknowns::per_spatial>(*at.spatial).setZero();
  if (at.space_pull) state[*at.space_pull] = space_pull(kind_of(view))->share;
  if (!view.picture_is_drawn) return;
  LandmarkMap<Point> joints;
  for (const LandmarkId id : unknowns.joints()) joints[id] = state.segment<3>(unknowns.joint(id));
  const SpaceFit fit = fit_space(view, joints);
  state.segment<3>(*at.spatial) = gibbs(fit.turn);
  state[*at.spatial + 3] = fit.log_scale;
  state.segment<3>(*at.spatial + 4) = fit.shift;
  const Eigen::Matrix3d back = nominal_axes(view.view).transpose() * fit.turn.transpose();
  for (const LandmarkId id : unknowns.joints()) {
    if (!view.still.spatial.has(id)) continue;
    state.segment<3>(unknowns.joint(id)) =
        back * (placed_at_address(view, id, false).at_m - fit.shift) / std::exp(fit.log_scale);
  }
}

void add_space_frame(Problem& problem, int frame, const SpaceKind& kind) {
  const SpaceFrame placed = space_frame(kind);
  problem.add<4, 4>(source::prior, runs<4>({frame}),
                    FramePlaced{placed.turn_rad, placed.turn_sigma_rad, placed.log_scale,
                                placed.log_scale_sigma});
}

SeenInSpace placed_at_address(const ViewEvidence& view, LandmarkId id, bool several_takes) {
  const auto& point = *view.still.spatial[id];
  SpaceError error = space_error(kind_of(view), id, point.confidence);
  if (!space_counts(view)) {
    error.sigma_m = {prior::beside_picture_across_sigma_m, prior::beside_picture_across_sigma_m,
                     prior::beside_picture_depth_sigma_m};
  }
  const double take_m = several_takes ? prior::take_to_take_sigma_m : 0;
  return {nominal_axes(view.view), at_m(point) - error.bias_m,
          (error.sigma_m.array().square() + take_m * take_m).sqrt().matrix()};
}

void add_balance(Problem& problem, const Unknowns& unknowns) {
  Balanced formula{{}, prior::balance_along_foot, prior::balance_sigma_m};
  std::array<int, 16> at;
  for (std::size_t i = 0; i < prior::masses.size(); ++i) {
    const auto& [joint, mass] = prior::masses[i];
    formula.mass[i] = mass;
    at[2 * i] = unknowns.joint(lead(joint)) + 2;
    at[2 * i + 1] = unknowns.joint(trail(joint)) + 2;
  }
  problem.add<1, 16>(source::prior, at, formula);
}

void add_space(Problem& problem, const Unknowns& unknowns, const ViewEvidence& view,
               const ViewUnknowns& at, std::size_t number, bool several_takes) {
  if (!at.spatial) return;
  const SpaceKind kind = kind_of(view);
  add_space_frame(problem, *at.spatial, kind);
  if (at.space_pull) {
    const auto pull = space_pull(kind);
    problem.add<1, 1>(source::prior, std::array{*at.space_pull}, Near{pull->share, pull->sigma});
  }
  for (const LandmarkId id : unknowns.joints()) {
    if (!view.still.spatial.has(id) || (!space_counts(view) && !guess_helps(id))) continue;
    const SeenInSpace seen = placed_at_address(view, id, several_takes);
    const double times = at.space_pull ? space_pull_times(id.joint) : 0;
    if (times > 0 && unknowns.has(mirrored(id))) {
      problem.add<3, 14>(source::space(number),
                         runs<3, 3, 7, 1>({unknowns.joint(id), unknowns.joint(mirrored(id)),
                                           *at.spatial, *at.space_pull}),
                         Pulled<SeenInSpace>{seen, times});
    } else {
      problem.add<3, 10>(source::space(number), runs<3, 7>({unknowns.joint(id), *at.spatial}),
                         seen);
    }
  }
}

}  // namespace rangecheck::posture
