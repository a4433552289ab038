// SPDX-License-Identifier: MIT
#include "intake/missing.hpp"

#include <algorithm>
#include <cmath>

namespace rangecheck::intake {
namespace {

/// What is left of a point that a person marked as hidden; no source.
constexpr double hidden = 0.5;

}  // namespace

void ZeroScores::add(const std::vector<RawPoint>& points, bool in_space) {
  for (const RawPoint& point : points) {
    if (is_nowhere(point, in_space) || std::isnan(point.score)) continue;
    any_ = true;
    least_ = std::min(least_, point.score);
    most_ = std::max(most_, point.score);
  }
}

std::optional<double> confidence_of(const RawPoint& point, const Scoring& scoring, bool in_space) {
  if (scoring.settled) {
    if (!is_given(point, in_space)) return std::nullopt;
    return std::isnan(point.score) ? 1 : std::clamp(point.score, 0.0, 1.0);
  }
  if (is_nowhere(point, in_space)) return std::nullopt;
  const bool given = !std::isnan(point.score) && !scoring.says_nothing;
  if (!given) return 1;
  if (scoring.kind == Score::visibility) return std::clamp(point.score, 0.0, 1.0);
  if (point.score <= 0 || point.score < scoring.least) return std::nullopt;
  if (scoring.kind == Score::label) return point.score < scoring.full ? hidden : 1;
  return std::min(point.score, 1.0);
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
