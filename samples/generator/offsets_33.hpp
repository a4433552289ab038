// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/Core>
#include <optional>

#include "generator/camera.hpp"

namespace rangecheck::samples {

/// Where a 33-point estimator puts a joint, against the joint's true centre: image right and image
/// down, millimetres on the body; `spread_mm` is over golfers.
struct Offset {
  Eigen::Vector2d mean_mm = Eigen::Vector2d::Zero();
  Eigen::Vector2d spread_mm = Eigen::Vector2d::Zero();
};

/// Median and 1.48 times the median absolute deviation over twelve rendered golfers at address with
/// known joints. Nothing for joints that were not measured.
std::optional<Offset> offset_33(View view, LandmarkId id);

}  // namespace rangecheck::samples
