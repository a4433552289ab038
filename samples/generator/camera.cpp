// SPDX-License-Identifier: MIT
#include "generator/camera.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <iterator>
#include <numbers>
#include <stdexcept>
#include <string_view>

namespace rangecheck::samples {
namespace {

using Eigen::Vector3d;

double radians(double degrees) { return degrees * std::numbers::pi / 180; }

std::pair<int, int> draw_image(Random& random) {
  constexpr std::pair<int, int> usual[] = {{1080, 1920}, {1920, 1080}, {720, 1280}};
  return usual[static_cast<std::size_t>(random.uniform(0, std::size(usual)))];
}

/// Rows right, down, forward of a camera that looks along `forward`, turned by `roll_rad`.
Eigen::Matrix3d looking(const Vector3d& forward, double roll_rad) {
  const Vector3d right = forward.cross(Vector3d::UnitY()).normalized();
  Eigen::Matrix3d axes;
  axes.row(0) = Eigen::AngleAxisd(roll_rad, forward) * right;
  axes.row(2) = forward;
  axes.row(1) = axes.row(2).cross(axes.row(0));
  return axes;
}

Camera draw_one(Random& random, View view, const Placement& placement, double top_m) {
  const auto draw = [&](Range range) { return random.uniform(range.low, range.high); };
  Camera camera;
  std::tie(camera.width_px, camera.height_px) =
      placement.image_px ? *placement.image_px : draw_image(random);
  camera.focal_px =
      draw(placement.focal_per_long_side) * std::max(camera.width_px, camera.height_px);
  const double bearing = radians(random.normal(0, placement.bearing_sd_deg));
  const Vector3d away = view == View::face_on ? Vector3d(std::sin(bearing), 0, std::cos(bearing))
                                              : Vector3d(-std::cos(bearing), 0, std::sin(bearing));
  const Vector3d middle(0, 0, 0.28);  // over the toes, where people aim
  camera.position = middle + draw(placement.distance_m) * away;
  camera.position.y() = draw(placement.height_m);
  const Vector3d aside = away.cross(Vector3d::UnitY());
  const Eigen::Vector2d off = random.normal_2d(placement.aim_sd_m);
  const Vector3d aim = middle + Vector3d(0, 0.45 * top_m + off.y(), 0) + off.x() * aside;
  const double roll = radians(random.normal(0, placement.roll_sd_deg));
  camera.axes = looking((aim - camera.position).normalized(), roll);
  return camera;
}

bool shows(const Camera& camera, const Points& points) {
  constexpr double margin = 0.02;  // of the image's sides
  const Eigen::Array2d size(camera.width_px, camera.height_px);
  return std::all_of(points.values().begin(), points.values().end(), [&](const auto& point) {
    if (!point) return true;
    const Eigen::Array2d at = camera.project(*point).array();
    return (at > margin * size).all() && (at < (1 - margin) * size).all();
  });
}

}  // namespace

std::string_view name_of(View view) { return view == View::face_on ? "face-on" : "down-the-line"; }

Eigen::Vector2d Camera::project(const Vector3d& point) const {
  const Vector3d at = seen(point);
  return Eigen::Vector2d(width_px, height_px) / 2.0 + focal_px / at.z() * at.head<2>();
}

Camera draw_camera(Random& random, View view, const Placement& placement, const Points& points) {
  return draw_camera(random, view, placement, std::span(&points, 1));
}

Camera draw_camera(Random& random, View view, const Placement& placement,
                   std::span<const Points> postures) {
  constexpr int patience = 5000;
  const double top_m = postures.front()[centre(Joint::head_top)]->y();
  for (int attempt = 0; attempt < patience; ++attempt) {
    const Camera camera = draw_one(random, view, placement, top_m);
    const auto is_shown = [&](const Points& points) { return shows(camera, points); };
    if (std::all_of(postures.begin(), postures.end(), is_shown)) return camera;
  }
  throw std::runtime_error("no camera found that shows the whole golfer and the ball");
}

}  // namespace rangecheck::samples
