// SPDX-License-Identifier: MIT
#include "intake/missing.hpp"

#include <algorithm>
#include <cmath>

namespace rangecheck::intake {

void ZeroScores::add(const std::vector<RawPoint>& points, bool in_space) {
  for (const RawPoint& point : points) {
    if (is_nowhere(point, in_space) || std::isnan(point.score)) continue;
    any_ = true;
    least_ = std::min(least_, point.score);
    most_ = std::max(most_, point.score);
  }
}

Down down_in(SpaceAxes axes) {
  switch (axes) {
    case SpaceAxes::world_z_up:
      return {true, -1};
    case SpaceAxes::camera_up:
    case SpaceAxes::world_y_up:
      return {false, -1};
    default:
      return {false, 1};
  }
}

}  // namespace rangecheck::intake
