// SPDX-License-Identifier: MIT
// One made-up scene for all dialects: two golfers side by side before one level camera, with every
// point that any estimator gives. Sides are anatomical: both are right-handed, so lead means left.
#pragma once

#include <Eigen/Core>
#include <cstddef>
#include <vector>

#include "base/skeleton.hpp"

namespace rangecheck::samples {

struct ScenePoint {
  Eigen::Vector2d at_px;  ///< x right, y down
  Eigen::Vector3d at_m;   ///< camera axes: x right, y down, z away from it; origin in the camera
  double confidence = 1;  ///< 0: the estimator hasn't seen it, and whatever it writes is a guess

  bool seen() const { return confidence > 0; }
};

struct ScenePerson {
  int track = 0;                   ///< stays with a person
  LandmarkMap<ScenePoint> points;  ///< all of a body and its hands; no club, no ball
};

struct SceneFrame {
  std::size_t number = 0;           ///< on the camera's count
  double time_s = 0;                ///< number / rate
  std::vector<ScenePerson> people;  ///< in the order in which an estimator lists them
};

struct Scene {
  int width_px = 0, height_px = 0;
  double frame_rate_hz = 0;
  std::vector<SceneFrame> frames;
};

/// Six frames. In each some points are not seen, other ones for each golfer; in the third frame
/// nobody is found, in the fifth only the second golfer; the camera has dropped a picture before
/// the fifth.
Scene made_up_scene();

}  // namespace rangecheck::samples
