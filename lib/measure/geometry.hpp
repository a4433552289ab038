// SPDX-License-Identifier: MIT
// The few geometric ideas that rules are made of: pure functions of points in the golfer frame
// (posture/posture.hpp), metres in, nothing out where the points leave the answer undefined.
#pragma once

#include <Eigen/Geometry>
#include <cmath>
#include <numbers>
#include <optional>

#include "base/quantity.hpp"
#include "posture/posture.hpp"

namespace rangecheck::measure {

using posture::Point;

/// Points nearer than this are one point: no direction can be taken from them.
inline constexpr double coincident_m = 1e-9;

/// +1 on the lead side, −1 on the trail side: the way along X that leads away from the other foot.
constexpr double outward(Side side) { return side == Side::lead ? 1 : -1; }

inline Point midpoint(const Point& a, const Point& b) { return (a + b) / 2; }

/// `p` dropped onto the ground plane.
inline Point on_ground(const Point& p) { return {p.x(), 0, p.z()}; }

/// `p` moved onto the player's fore-and-aft plane (Y–Z).
inline Point in_profile(const Point& p) { return {0, p.y(), p.z()}; }

inline double ground_distance(const Point& a, const Point& b) { return on_ground(a - b).norm(); }

/// The same angle in (−180°, 180°].
inline Angle wrapped(Angle angle) {
  constexpr double turn = 2 * std::numbers::pi;
  const double rest = std::remainder(angle.in_radians(), turn);
  return Angle::radians(rest == -std::numbers::pi ? std::numbers::pi : rest);
}

/// atan2 as an angle, or nothing when both sides are nil.
inline std::optional<Angle> direction(double opposite, double adjacent) {
  if (std::hypot(opposite, adjacent) < coincident_m) return std::nullopt;
  return Angle::radians(std::atan2(opposite, adjacent));
}

/// The angle between two directions, 0..180°. Any frame.
inline std::optional<Angle> angle_between(const Point& a, const Point& b) {
  if (a.norm() < coincident_m || b.norm() < coincident_m) return std::nullopt;
  // atan2, not acos: acos loses half its digits near 0 and 180°.
  return Angle::radians(std::atan2(a.cross(b).norm(), a.dot(b)));
}

/// 180° minus the angle at `joint` between `a` and `b`: 0 straight, never negative. Any frame.
inline std::optional<Angle> flexion(const Point& a, const Point& joint, const Point& b) {
  return angle_between(joint - a, b - joint);
}

/// Line from the trail to the lead point, seen from above, against the target line: open positive
/// (lead end farther from the ball line).
inline std::optional<Angle> open_angle(const Point& lead, const Point& trail) {
  return direction(trail.z() - lead.z(), lead.x() - trail.x());
}

/// How far one line (lead, trail) is open to another, seen from above, in (−180°, 180°].
inline std::optional<Angle> open_against(const Point& lead, const Point& trail,
                                         const Point& other_lead, const Point& other_trail) {
  const auto line = open_angle(lead, trail);
  const auto other = open_angle(other_lead, other_trail);
  if (!line || !other) return std::nullopt;
  return wrapped(*line - *other);
}

/// Angle of the line from one point to another above the horizontal.
inline std::optional<Angle> elevation(const Point& from, const Point& to) {
  return direction(to.y() - from.y(), ground_distance(from, to));
}

/// Angle of the line through two points to the horizontal, trail side lower positive.
inline std::optional<Angle> frontal_tilt(const Point& lead, const Point& trail) {
  return elevation(trail, lead);
}

/// Lean of the line from `low` to `high` toward the ball, from vertical, seen along the target
/// line.
inline std::optional<Angle> lean_to_ball(const Point& low, const Point& high) {
  return direction(high.z() - low.z(), high.y() - low.y());
}

/// Where `p` lies along the ground line from `from` (0) to `to` (1).
inline std::optional<Ratio> along_ground(const Point& p, const Point& from, const Point& to) {
  const Point axis = on_ground(to - from);
  if (axis.norm() < coincident_m) return std::nullopt;
  return Ratio{on_ground(p - from).dot(axis) / axis.squaredNorm()};
}

/// Unit vector out of the palm, from wrist, index and little knuckle. Nothing when they are in
/// line.
inline std::optional<Point> out_of_palm(Side side, const Point& wrist, const Point& index,
                                        const Point& little) {
  const Point normal = outward(side) * (little - wrist).cross(index - wrist);
  if (normal.norm() < coincident_m) return std::nullopt;
  return normal.normalized();
}

/// Formula of a rule whose points are a lead and a trail one: their line against the target line.
inline std::optional<Angle> line_to_target(const std::array<Point, 2>& given) {
  return open_angle(given[0], given[1]);
}

/// Formula of a rule whose points are two ends: the line from the first to the second above level.
inline std::optional<Angle> line_elevation(const std::array<Point, 2>& given) {
  return elevation(given[0], given[1]);
}

/// Formula of a rule whose points are a lead and a trail one, then the lead and trail big toe:
/// their line against the stance line.
inline std::optional<Angle> line_to_stance(const std::array<Point, 4>& given) {
  return open_against(given[0], given[1], given[2], given[3]);
}

}  // namespace rangecheck::measure
