// SPDX-License-Identifier: MIT
// What the rules about turn share. A turn is counted from address and is positive going back (seen
// from above, the lead side goes toward the ball): the other way round than an open line.
#pragma once

#include <array>
#include <optional>

#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure::turn {

inline constexpr LandmarkId hips[] = {lead(Joint::hip), trail(Joint::hip)};
inline constexpr LandmarkId trunk[] = {lead(Joint::shoulder), trail(Joint::shoulder),
                                       lead(Joint::hip), trail(Joint::hip)};

/// A line of the body and the trunk it turns about, from mid hips to mid shoulders.
struct LineOnTrunk {
  Point line, trunk;
};

/// How far the line has turned back about the trunk since then: the twist that is left when the
/// trunk's own change of lean is taken out by the least rotation that undoes it (swing-twist
/// decomposition). In (−180°, 180°]. Undefined when a trunk has no length or a line lies along it.
inline std::optional<Angle> about_trunk(const LineOnTrunk& now, const LineOnTrunk& then) {
  if (now.trunk.norm() < coincident_m || then.trunk.norm() < coincident_m) return std::nullopt;
  const Point axis = now.trunk.normalized();
  const Point from = Eigen::Quaterniond::FromTwoVectors(then.trunk, now.trunk) * then.line;
  const Point from_across = from - axis * axis.dot(from);
  const Point to_across = now.line - axis * axis.dot(now.line);
  if (from_across.norm() < coincident_m || to_across.norm() < coincident_m) return std::nullopt;
  return direction(-axis.dot(from_across.cross(to_across)), from_across.dot(to_across));
}

/// Turn of the shoulder line about the trunk: the points of `trunk` now, then at address.
inline std::optional<Angle> of_shoulders(const std::array<Point, 8>& given) {
  const auto [lead_shoulder, trail_shoulder, lead_hip, trail_hip, was_lead_shoulder,
              was_trail_shoulder, was_lead_hip, was_trail_hip] = given;
  return about_trunk(
      {lead_shoulder - trail_shoulder,
       midpoint(lead_shoulder, trail_shoulder) - midpoint(lead_hip, trail_hip)},
      {was_lead_shoulder - was_trail_shoulder,
       midpoint(was_lead_shoulder, was_trail_shoulder) - midpoint(was_lead_hip, was_trail_hip)});
}

/// Turn of the hip line about the vertical: the points of `hips` now, then at address.
inline std::optional<Angle> of_hips(const std::array<Point, 4>& given) {
  return open_against(given[2], given[3], given[0], given[1]);
}

}  // namespace rangecheck::measure::turn
