// SPDX-License-Identifier: MIT
#include "generator/space_detector.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "generator/smooth_path.hpp"

namespace rangecheck::samples {
namespace {

using Eigen::Vector3d;

constexpr double degree = 1 / 57.29577951308232;

Vector3d normal_3d(Random& random, const Vector3d& sd) {
  Vector3d out;
  for (int i = 0; i < 3; ++i) out[i] = random.normal(0, sd[i]);
  return out;
}

/// How a kind of estimator errs. Standard deviations, millimetres along right, down, forward.
struct Manner {
  Vector3d trunk_mm, limb_mm, foot_mm;  ///< of the bias
  double changing_share;                ///< of the bias's variance: changes with the posture
  double jitter_mm;
  double tilt_mean_deg, tilt_sd_deg, bearing_sd_deg, roll_sd_deg;
  double scale_mean, scale_sd;
  double pull_mean, pull_sd;  ///< share of the way from one shoulder to the other; hips half
};

Manner manner_of(SpaceKind kind) {
  switch (kind) {
    case SpaceKind::one_camera:
      return {{25, 30, 50}, {35, 35, 75}, {30, 30, 70}, 0.5, 4, 8, 6, 6, 2, 0.97, 0.06, 0.2, 0.1};
    case SpaceKind::depth_camera:
      return {{15, 15, 22}, {18, 18, 26}, {28, 28, 40}, 0.3, 4, 0, 0, 0, 0, 1, 0.008, 0, 0};
    case SpaceKind::several_cameras:
      break;
  }
  return {{14, 14, 14}, {12, 12, 12}, {11, 11, 11}, 0.3, 3, 0, 1, 2, 1, 1, 0.005, 0, 0};
}

Vector3d bias_mm(const Manner& manner, Joint joint) {
  switch (joint) {
    case Joint::nose:
    case Joint::eye:
    case Joint::ear:
      return 0.6 * manner.trunk_mm;  // what can be seen well is placed well
    case Joint::elbow:
    case Joint::wrist:
    case Joint::knee:
    case Joint::ankle:
      return manner.limb_mm;
    case Joint::heel:
    case Joint::big_toe:
    case Joint::small_toe:
      return manner.foot_mm;
    default:
      return manner.trunk_mm;
  }
}

/// A random offset that changes smoothly with the way that the hands have gone, as the posture
/// does; standard deviation about 1.
class Drift {
 public:
  Drift(Random& random, double way_m) {
    const auto knots = static_cast<std::size_t>(way_m / step_m) + 2;
    for (std::size_t i = 0; i < knots; ++i) knots_.push_back(normal_3d(random, {1, 1, 1}));
  }
  Vector3d at(double way_m) const {
    const double place = way_m / step_m;
    const auto before = std::min(static_cast<std::size_t>(place), knots_.size() - 2);
    const double share = smooth_step(place - static_cast<double>(before));
    return (1 - share) * knots_[before] + share * knots_[before + 1];
  }

 private:
  static constexpr double step_m = 0.5;
  std::vector<Vector3d> knots_;
};

/// How far the hands have gone up to each frame, metres.
std::vector<double> way_of_hands(std::span<const Points> points) {
  std::vector<double> out{0};
  for (std::size_t i = 1; i < points.size(); ++i) {
    const LandmarkId hand = lead(Joint::wrist);
    out.push_back(out.back() + (*points[i][hand] - *points[i - 1][hand]).norm());
  }
  return out;
}

bool has(SpaceKind kind, LandmarkId id) {
  if (kind == SpaceKind::depth_camera) {
    return id.joint != Joint::heel && id.joint != Joint::small_toe && id.joint != Joint::neck;
  }
  return id.joint != Joint::neck;
}

double pull_times(Joint joint) {
  if (joint == Joint::shoulder) return 1;
  return joint == Joint::hip ? 0.5 : 0;
}

/// The frame: turned and scaled from the camera's axes.
struct Frame {
  Eigen::Matrix3d turn;
  double scale;
};

Frame draw_frame(Random& random, const Manner& manner) {
  const double tilt = random.normal(manner.tilt_mean_deg, manner.tilt_sd_deg) * degree;
  const double bearing = random.normal(0, manner.bearing_sd_deg) * degree;
  const double roll = random.normal(0, manner.roll_sd_deg) * degree;
  Frame out;
  out.turn =
      (Eigen::AngleAxisd(tilt, Vector3d::UnitX()) * Eigen::AngleAxisd(roll, Vector3d::UnitZ()) *
       Eigen::AngleAxisd(bearing, Vector3d::UnitY()))
          .toRotationMatrix();
  out.scale = random.normal(manner.scale_mean, manner.scale_sd);
  return out;
}

/// The camera's; where there is no camera, level and turned so that both feet point at it.
Eigen::Matrix3d axes_of(SpaceKind kind, const Camera& camera, const Points& at_address) {
  if (kind != SpaceKind::several_cameras) return camera.axes;
  Vector3d ahead = Vector3d::Zero();
  for (const Side side : {Side::lead, Side::trail}) {
    ahead += *at_address[{side, Joint::big_toe}] - *at_address[{side, Joint::heel}];
  }
  ahead.y() = 0;
  ahead.normalize();
  const Vector3d down(0, -1, 0);
  Eigen::Matrix3d out;
  out << down.cross(-ahead).transpose(), down.transpose(), -ahead.transpose();
  return out;
}

}  // namespace

std::vector<DetectedFrame> detect_in_space(Random& random, SpaceKind kind, const Camera& camera,
                                           std::span<const Points> points) {
  if (points.empty()) return {};
  const Manner manner = manner_of(kind);
  const Frame frame = draw_frame(random, manner);
  const double pull = std::max(0.0, random.normal(manner.pull_mean, manner.pull_sd));
  const Eigen::Matrix3d axes = frame.turn * axes_of(kind, camera, points.front());
  const auto way_m = way_of_hands(points);
  std::vector<DetectedFrame> out(points.size());
  for (const LandmarkId id : points_of(Skeleton::points_25)) {
    if (!has(kind, id)) continue;
    const Vector3d sd_m = bias_mm(manner, id.joint) / 1000;
    const Vector3d constant_m = std::sqrt(1 - manner.changing_share) * normal_3d(random, sd_m);
    const Drift drift(random, way_m.back());
    for (std::size_t i = 0; i < points.size(); ++i) {
      Vector3d joint = *points[i][id];
      const double drawn = pull * pull_times(id.joint);
      joint.z() += drawn * ((*points[i][mirrored(id)]).z() - joint.z());
      const Vector3d origin =
          kind == SpaceKind::one_camera
              ? Vector3d((*points[i][lead(Joint::hip)] + *points[i][trail(Joint::hip)]) / 2)
              : camera.position;
      const Vector3d off_m =
          constant_m + std::sqrt(manner.changing_share) * sd_m.cwiseProduct(drift.at(way_m[i])) +
          normal_3d(random, Vector3d::Constant(manner.jitter_mm / 1000));
      out[i].space[id] =
          DetectedInSpace{frame.scale * (axes * (joint - origin) + off_m), random.uniform(0.75, 1)};
    }
  }
  return out;
}

}  // namespace rangecheck::samples
