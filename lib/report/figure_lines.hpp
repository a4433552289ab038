// SPDX-License-Identifier: MIT
// A golfer in a picture as lines, and where a measure lies on them. Not for other rooms.
#pragma once

#include <cmath>
#include <optional>
#include <utility>
#include <vector>

#include "report/report.hpp"

namespace rangecheck::report {

/// A place in the picture, or a step in it: x right, y down.
struct Spot {
  double x = 0, y = 0;
  double length() const { return std::hypot(x, y); }
  bool operator==(const Spot&) const = default;
  friend Spot operator+(Spot a, Spot b) { return {a.x + b.x, a.y + b.y}; }
  friend Spot operator-(Spot a, Spot b) { return {a.x - b.x, a.y - b.y}; }
  friend Spot operator*(double by, Spot a) { return {by * a.x, by * a.y}; }
};

/// A line of the body between two of its points.
struct Bone {
  Spot from, to;
  Side side = Side::centre;
  bool club = false;
};

struct Outline {
  std::vector<Bone> bones;
  struct Round {
    Spot middle;
    double radius;
  };
  std::optional<Round> head;
  std::optional<Spot> ball;
};

/// What of the golfer the film shows, in its pixels.
Outline outline_of(const Figure& figure);

/// An angle on the golfer: between a direction that stays and a line of the body. Directions are in
/// radians from the picture's right, growing clockwise.
struct Fan {
  Spot middle;
  double radius = 0;
  double reference = 0, arm = 0;
  int sense = 1;  ///< 1 where a greater value lies clockwise of a lesser
  /// What the picture itself shows, in radians.
  double in_picture() const;
  /// Where the line would lie with a value that is greater by `more`.
  double arm_with(double more) const { return arm + sense * more; }
};

/// The angle that `drawing` says, or nothing for a distance, where a point is missing, or where a
/// joint is too straight to see which way it bends.
std::optional<Fan> fan_of(const Figure& figure, const measure::Drawing& drawing);

/// The two ends of a distance, or nothing for an angle or where a point is missing.
std::optional<std::pair<Spot, Spot>> ends_of(const Figure& figure, const measure::Drawing& drawing);

}  // namespace rangecheck::report
