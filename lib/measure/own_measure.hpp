// SPDX-License-Identifier: MIT
// A coach's own measure, made of a few primitives: no C++ and no formula language. It reaches this
// room as a value (grade reads the YAML), and is a rule like the built-in ones.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/result.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {

/// A point: one landmark, or the middle of several.
struct PointOf {
  std::vector<LandmarkId> landmarks;
};

/// A direction: from one point to another, or an axis of the golfer frame: +X toward the target,
/// +Y up, +Z toward the ball.
enum class Axis { target, up, ball };
struct LineOf {
  PointOf from, to;
};
using DirectionOf = std::variant<LineOf, Axis>;

/// The plane in which an angle between directions is taken.
enum class Plane { space, ground, front, side };  ///< ground X–Z, front X–Y, side Y–Z

/// 180° minus the angle a–joint–b, or the angle itself.
struct AngleAtJoint {
  PointOf first, joint, second;
  bool flexion = true;
};
/// From `reference` to `line`, signed in a plane (positive from +X to +Y in front, from +Z to +Y in
/// side, open in ground), in (−180°, 180°]; 0..180° in space. Lines have a direction: a line across
/// the body runs from trail to lead.
struct LineAgainst {
  LineOf line;
  DirectionOf reference;
  Plane plane = Plane::space;
};
/// How far `to` lies from `from` along an axis.
struct DistanceAlong {
  PointOf from, to;
  Axis axis = Axis::target;
};
struct DistanceBetween {
  PointOf from, to;
};

struct Primitive;
/// One over the other, both lengths.
struct RatioOf {
  std::shared_ptr<const Primitive> over, under;
};
/// Now less at address.
struct ChangeOf {
  std::shared_ptr<const Primitive> of;
};

struct Primitive {
  std::variant<AngleAtJoint, LineAgainst, DistanceAlong, DistanceBetween, RatioOf, ChangeOf> kind;
};

/// What a coach writes about a measure of his own.
struct OwnMeasureFacts {
  std::string id, title, sign, origin;  ///< origin: "file:line"
  Region region = Region::balance;
  Positions at = Positions::of(Position::address);
  std::optional<double> seen_limit_si;  ///< absent: 6 deg, 1.5 in or 0.1
  Primitive primitive;
};

/// Owns what its rule refers to. Neither copied nor moved: the rule points into it.
class OwnMeasure {
 public:
  /// An error (no place; the caller adds it) when the id is not kebab-case or that of a built-in
  /// rule, title or sign empty, no position named, or the primitive makes no sense: a ratio of
  /// angles, a line from a point to itself, a change of a change, a change since address at
  /// address.
  static Result<std::unique_ptr<const OwnMeasure>> make(OwnMeasureFacts facts);
  const Rule& rule() const { return rule_; }
  const std::string& origin() const { return facts_.origin; }

  OwnMeasure(const OwnMeasure&) = delete;
  OwnMeasure& operator=(const OwnMeasure&) = delete;

 private:
  explicit OwnMeasure(OwnMeasureFacts facts) : facts_(std::move(facts)) {}
  OwnMeasureFacts facts_;
  std::vector<LandmarkId> needs_, address_needs_;
  std::string source_;
  Rule rule_;
};

/// The value of `primitive` for the points of a rule's needs and then of its address_needs, or
/// nothing where undefined.
std::optional<double> evaluate(const Rule& rule, std::span<const Point> points);

}  // namespace rangecheck::measure
