// SPDX-License-Identifier: MIT
// Phones on tripods, as people put them: not quite square, not quite level, not quite centred.
#pragma once

#include <Eigen/Core>
#include <optional>
#include <span>
#include <utility>

#include "generator/golfer.hpp"

namespace rangecheck::samples {

enum class View { face_on, down_the_line };
/// "face-on", "down-the-line": as manifests spell it.
std::string_view name_of(View view);

/// Pinhole, golfer frame, metres. Rows of `axes`: image right, image down, forward. The principal
/// point is the middle of the image.
struct Camera {
  Eigen::Matrix3d axes = Eigen::Matrix3d::Identity();
  Eigen::Vector3d position = Eigen::Vector3d::Zero();
  double focal_px = 0;
  int width_px = 0, height_px = 0;

  /// Camera axes, metres: x right, y down, z forward.
  Eigen::Vector3d seen(const Eigen::Vector3d& point) const { return axes * (point - position); }
  /// Pixels, x right, y down.
  Eigen::Vector2d project(const Eigen::Vector3d& point) const;
};

struct Range {
  double low = 0, high = 0;
};

/// How cameras spread over films.
struct Placement {
  std::optional<std::pair<int, int>> image_px;  ///< width, height; drawn when absent
  Range focal_per_long_side{0.62, 0.98};
  Range distance_m{2.2, 5.0};  ///< on the ground, from over the toes
  Range height_m{0.5, 1.7};
  double bearing_sd_deg = 5;  ///< of the camera's place around the golfer; 0 is square
  double roll_sd_deg = 1.2;
  double aim_sd_m = 0.2;  ///< of the point looked at
};

/// A camera that has every one of `points` in the picture with a small margin.
Camera draw_camera(Random& random, View view, const Placement& placement, const Points& points);
/// Likewise for a golfer who moves: `postures` begin with the address.
Camera draw_camera(Random& random, View view, const Placement& placement,
                   std::span<const Points> postures);

}  // namespace rangecheck::samples
