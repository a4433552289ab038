// SPDX-License-Identifier: MIT
#include "posture/views.hpp"

#include <algorithm>
#include <cmath>

#include "posture/body.hpp"
#include "posture/formulas.hpp"
#include "posture/landmark_error.hpp"
#include "posture/priors.hpp"
#include "posture/sources.hpp"
#include "posture/space.hpp"

namespace rangecheck::posture {
namespace {

double long_side(intake::ImageSize image) { return std::max(image.width_px, image.height_px); }

/// The joint in camera axes at `state`, metres.
Eigen::Vector3d placed(int camera, intake::View view, int joint, const Eigen::VectorXd& state) {
  std::array<double, 7> unknowns;
  for (int i = 0; i < 7; ++i) unknowns[i] = state[camera + i];
  return in_camera(unknowns, 0, nominal_axes(view), Point(state.segment<3>(joint)));
}

void add_landmarks(Problem& problem, const Unknowns& unknowns, const ViewEvidence& view,
                   const ViewUnknowns& at, std::size_t number, bool several_takes,
                   const Eigen::VectorXd& state) {
  for (const LandmarkId id : unknowns.joints()) {
    const auto& point = view.still.points[id];
    const bool is_ball = id.joint == Joint::ball;
    if (!point || (is_ball && view.ball)) continue;
    const int joint = unknowns.joint(id);
    const Seen seen = shown_at_address(view, at, id, joint, several_takes, state).seen;
    if (at.pull && id.joint == Joint::shoulder) {
      const int other = unknowns.joint(mirrored(id));
      problem.add<2, 14>(source::film(number),
                         runs<3, 3, 7, 1>({joint, other, *at.camera, *at.pull}),
                         Pulled<Seen>{seen, 1});
    } else {
      problem.add<2, 10>(source::film(number), runs<3, 7>({joint, *at.camera}), seen);
    }
  }
}

void add_clicked(Problem& problem, const Unknowns& unknowns, const ViewEvidence& view,
                 const ViewUnknowns& at, std::size_t number, const Eigen::VectorXd& state) {
  const Eigen::Matrix3d nominal = nominal_axes(view.view);
  if (view.ball) {
    const int joint = unknowns.joint(centre(Joint::ball));
    const double sigma =
        std::hypot(prior::clicked_sigma_px,
                   prior::ball_point_sigma_m * px_per_metre(*at.camera, view.view, joint, state));
    problem.add<2, 10>(
        source::ball(number), runs<3, 7>({joint, *at.camera}),
        Seen{nominal, from_centre(*view.ball, view.image), Eigen::Vector2d::Constant(sigma)});
  }
  if (view.target_line) {
    const Eigen::Vector2d first = from_centre(view.target_line->first, view.image);
    const Eigen::Vector2d second = from_centre(view.target_line->second, view.image);
    problem.add<4, 11>(source::stick(number), runs<4, 7>({*at.stick, *at.camera}),
                       StickSeen{nominal, first, second, prior::clicked_sigma_px});
    problem.add<1, 4>(source::stick(number), runs<4>({*at.stick}),
                      StickAlongTarget{prior::stick_direction_sigma_rad});
  }
}

struct Extent {
  Eigen::Vector2d mean_px = Eigen::Vector2d::Zero();
  Point mean_m = Point::Zero();
  double px_per_metre = 500;
};

/// How the figure's heights in the picture compare with a standing golfer's.
Extent extent_of(const ViewEvidence& view, const Unknowns& unknowns, const Eigen::VectorXd& state) {
  Extent out;
  double n = 0, v = 0, vv = 0, y = 0, yy = 0;
  for (const LandmarkId id : unknowns.joints()) {
    const auto& point = view.still.points[id];
    if (!point || id.joint == Joint::ball) continue;
    const Eigen::Vector2d px = from_centre(point->at, view.image);
    const Point m = state.segment<3>(unknowns.joint(id));
    out.mean_px += px;
    out.mean_m += m;
    n += 1;
    v += px.y();
    vv += px.y() * px.y();
    y += m.y();
    yy += m.y() * m.y();
  }
  if (n < 2) return out;
  out.mean_px /= n;
  out.mean_m /= n;
  const double spread_px = std::sqrt(std::max(1.0, vv / n - v * v / n / n));
  const double spread_m = std::sqrt(std::max(1e-4, yy / n - y * y / n / n));
  out.px_per_metre = spread_px / spread_m;
  return out;
}

void guess_camera(const ViewEvidence& view, const ViewUnknowns& at, const Extent& extent,
                  Eigen::VectorXd& state) {
  const Eigen::Matrix3d nominal = nominal_axes(view.view);
  const double focal = view.camera.focal_px.value_or(
      std::exp(prior::log_focal_over_long_side.mean) * long_side(view.image));
  const double distance = std::clamp(focal / extent.px_per_metre, 1.0, 12.0);
  Point position = look_at - distance * nominal.row(2).transpose();
  position.y() = prior::camera_height_m.mean;
  const Eigen::Vector3d seen = nominal * (extent.mean_m - position);
  const double pan = std::atan2(extent.mean_px.x(), focal) - std::atan2(seen.x(), seen.z());
  const double tilt = std::atan2(seen.y(), seen.z()) - std::atan2(extent.mean_px.y(), focal);
  state[*at.camera] = std::log(focal);
  state.segment<3>(*at.camera + 1) = position;
  state.segment<3>(*at.camera + 4) << tilt / 2, pan / 2, 0;
}

/// Moves a joint across the line of sight to where the film shows it, at the depth that it has.
void move_into_sight(const ViewEvidence& view, const ViewUnknowns& at, int joint,
                     Eigen::Vector2d px, Eigen::VectorXd& state) {
  const Eigen::Matrix3d nominal = nominal_axes(view.view);
  const Eigen::Vector3d from_camera = placed(*at.camera, view.view, joint, state);
  const double focal = std::exp(state[*at.camera]);
  const Eigen::Vector3d wanted(px.x() / focal * from_camera.z(), px.y() / focal * from_camera.z(),
                               from_camera.z());
  const Eigen::Vector3d back = turned(Eigen::Vector3d(-state.segment<3>(*at.camera + 4)), wanted);
  Point moved = nominal.transpose() * back + state.segment<3>(*at.camera + 1);
  // Only across the view's nominal axis: depth stays what it was.
  const Eigen::Vector3d forward = nominal.row(2).transpose();
  const Point old = state.segment<3>(joint);
  moved += forward * forward.dot(old - moved);
  state.segment<3>(joint) = moved;
}

}  // namespace

Eigen::Matrix3d nominal_axes(intake::View view) {
  Eigen::Matrix3d axes;
  if (view == intake::View::face_on) {
    axes << 1, 0, 0, 0, -1, 0, 0, 0, -1;
  } else {
    axes << 0, 0, 1, 0, -1, 0, 1, 0, 0;
  }
  return axes;
}

Eigen::Vector2d from_centre(intake::ImagePoint at, intake::ImageSize image) {
  return {at.x_px - image.width_px / 2, at.y_px - image.height_px / 2};
}

double px_per_metre(int camera, intake::View view, int joint, const Eigen::VectorXd& state) {
  const double depth = std::max(0.5, placed(camera, view, joint, state).z());
  return std::exp(state[camera]) / depth;
}

ShownAtAddress shown_at_address(const ViewEvidence& view, const ViewUnknowns& at, LandmarkId id,
                                int joint, bool several_takes, const Eigen::VectorXd& state) {
  const motion::StillPoint& point = *view.still.points[id];
  const double scale = px_per_metre(*at.camera, view.view, joint, state);
  const LandmarkError error = landmark_error(view.estimator, view.view, id, point.confidence);
  const double take = several_takes && id.joint != Joint::ball ? prior::take_to_take_sigma_m : 0;
  Eigen::Vector2d sigma_px;
  for (int i = 0; i < 2; ++i) {
    sigma_px[i] = std::hypot(scale * std::hypot(error.sigma_m[i], take), point.jitter_u_px);
  }
  return {
      {nominal_axes(view.view), from_centre(point.at, view.image) - scale * error.bias_m, sigma_px},
      scale * error.sigma_m};
}

ViewUnknowns reserve(Unknowns& unknowns, const ViewEvidence& view) {
  ViewUnknowns out;
  if (!view.picture_is_drawn) out.camera = unknowns.add_camera();
  reserve_space(unknowns, view, out);
  if (view.target_line) out.stick = unknowns.add_stick();
  if (out.camera && shoulder_pull(view.estimator, view.view)) out.pull = unknowns.add_pull();
  return out;
}

void guess(const ViewEvidence& view, const ViewUnknowns& at, const Unknowns& unknowns,
           Eigen::VectorXd& state) {
  if (at.camera) guess_camera(view, at, extent_of(view, unknowns, state), state);
  for (const LandmarkId id : unknowns.joints()) {
    const auto& point = view.still.points[id];
    if (!point) continue;
    move_into_sight(view, at, unknowns.joint(id), from_centre(point->at, view.image), state);
  }
  guess_space(view, at, unknowns, state);
  if (at.stick) state.segment<Unknowns::per_stick>(*at.stick) << -0.3, 0.3, 0.4, 0.4;
  if (at.pull) state[*at.pull] = shoulder_pull(view.estimator, view.view)->share;
}

void add_camera(Problem& problem, int camera, intake::View view, intake::ImageSize image,
                const intake::CameraFacts& facts, std::size_t number) {
  const double log_side = std::log(long_side(image));
  problem.add<1, 1>(
      source::prior, std::array{camera},
      Near{log_side + prior::log_focal_over_long_side.mean, prior::log_focal_over_long_side.sigma});
  problem.add<6, 7>(
      source::prior, runs<7>({camera}),
      CameraPlaced{nominal_axes(view), look_at, prior::camera_bearing_sigma_rad,
                   prior::camera_height_m.mean, prior::camera_height_m.sigma,
                   prior::log_camera_distance_m.mean, prior::log_camera_distance_m.sigma,
                   prior::camera_aim_sigma_rad, prior::camera_roll_sigma_rad});
  if (facts.focal_px) {
    problem.add<1, 1>(source::camera(number), std::array{camera},
                      Near{std::log(*facts.focal_px), prior::stated_focal_relative_sigma});
  }
  if (facts.height) {
    problem.add<1, 1>(source::camera(number), std::array{camera + 2},
                      Near{facts.height->in_metres(), prior::stated_height_sigma_m});
  }
  if (facts.distance) {
    problem.add<1, 7>(source::camera(number), runs<7>({camera}),
                      CameraDistance{look_at, std::log(facts.distance->in_metres()),
                                     prior::stated_distance_relative_sigma});
  }
}

void add_view(Problem& problem, const Unknowns& unknowns, const ViewEvidence& view,
              const ViewUnknowns& at, std::size_t number, bool several_takes,
              const Eigen::VectorXd& state) {
  if (at.camera) add_camera(problem, *at.camera, view.view, view.image, view.camera, number);
  if (at.pull) {
    const auto pull = shoulder_pull(view.estimator, view.view);
    problem.add<1, 1>(source::prior, std::array{*at.pull}, Near{pull->share, pull->sigma});
  }
  add_landmarks(problem, unknowns, view, at, number, several_takes, state);
  add_clicked(problem, unknowns, view, at, number, state);
  add_space(problem, unknowns, view, at, number, several_takes);
}

Camera camera_of(const ViewEvidence& view, int camera, const Eigen::VectorXd& state) {
  Camera out;
  const Eigen::Vector3d turn = state.segment<3>(camera + 4);
  const Eigen::Matrix3d nominal = nominal_axes(view.view);
  for (int i = 0; i < 3; ++i) {
    out.axes.col(i) = turned(turn, Eigen::Vector3d(nominal.col(i)));
  }
  out.position = state.segment<3>(camera + 1);
  out.focal_px = std::exp(state[camera]);
  out.principal_px = {view.image.width_px / 2, view.image.height_px / 2};
  return out;
}

}  // namespace rangecheck::posture
