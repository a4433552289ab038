// SPDX-License-Identifier: MIT
// A person as a shape in the picture: the points that tell people apart, without hands and club.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <utility>

#include "intake/film.hpp"

namespace rangecheck::pose {

/// Fewer landmarks than this are not a body: parts of someone, a hand, a ghost.
inline constexpr int least_landmarks = 6;

/// Parts of a body that an estimator may take from somebody else as a whole.
enum class Part : std::uint8_t { head, chest, hips, lead_arm, trail_arm, lead_leg, trail_leg };
inline constexpr std::size_t part_count = 7;

struct ShapePoint {
  LandmarkId id;
  Part part;
};

// clang-format off
inline constexpr std::array shape_points{
    ShapePoint{centre(Joint::nose), Part::head},      ShapePoint{centre(Joint::neck), Part::chest},
    ShapePoint{centre(Joint::head_top), Part::head},  ShapePoint{centre(Joint::pelvis), Part::hips},
    ShapePoint{lead(Joint::eye), Part::head},         ShapePoint{trail(Joint::eye), Part::head},
    ShapePoint{lead(Joint::ear), Part::head},         ShapePoint{trail(Joint::ear), Part::head},
    ShapePoint{lead(Joint::shoulder), Part::chest},   ShapePoint{trail(Joint::shoulder), Part::chest},
    ShapePoint{lead(Joint::hip), Part::hips},        ShapePoint{trail(Joint::hip), Part::hips},
    ShapePoint{lead(Joint::elbow), Part::lead_arm},   ShapePoint{trail(Joint::elbow), Part::trail_arm},
    ShapePoint{lead(Joint::wrist), Part::lead_arm},   ShapePoint{trail(Joint::wrist), Part::trail_arm},
    ShapePoint{lead(Joint::knee), Part::lead_leg},    ShapePoint{trail(Joint::knee), Part::trail_leg},
    ShapePoint{lead(Joint::ankle), Part::lead_leg},   ShapePoint{trail(Joint::ankle), Part::trail_leg},
    ShapePoint{lead(Joint::heel), Part::lead_leg},    ShapePoint{trail(Joint::heel), Part::trail_leg},
    ShapePoint{lead(Joint::big_toe), Part::lead_leg}, ShapePoint{trail(Joint::big_toe), Part::trail_leg},
    ShapePoint{lead(Joint::small_toe), Part::lead_leg},
    ShapePoint{trail(Joint::small_toe), Part::trail_leg},
};
// clang-format on

/// Index of a landmark that is a shape point.
inline constexpr auto point_indices = [] {
  std::array<std::size_t, landmark_count> out{};
  for (std::size_t i = 0; i < shape_points.size(); ++i) out[index_of(shape_points[i].id)] = i;
  return out;
}();
constexpr std::size_t point_of(LandmarkId id) { return point_indices[index_of(id)]; }

/// A set of shape points, one bit each.
using PointSet = std::uint32_t;
static_assert(shape_points.size() <= 32);

constexpr PointSet points_of(std::initializer_list<Part> parts) {
  PointSet out = 0;
  for (std::size_t i = 0; i < shape_points.size(); ++i)
    for (const Part part : parts)
      if (shape_points[i].part == part) out |= PointSet{1} << i;
  return out;
}
inline constexpr std::array<PointSet, part_count> points_of_part = [] {
  std::array<PointSet, part_count> out{};
  for (std::size_t k = 0; k < part_count; ++k) out[k] = points_of({static_cast<Part>(k)});
  return out;
}();
inline constexpr PointSet every_point = (PointSet{1} << shape_points.size()) - 1;

struct Offset {
  double x_px = 0, y_px = 0;
};

struct Shape {
  std::array<double, shape_points.size()> x_px{}, y_px{};
  PointSet seen = 0;
  int landmarks = 0;     ///< how many are seen
  double height_px = 0;  ///< from the highest to the lowest point
  double left_px = 0, right_px = 0, top_px = 0, bottom_px = 0;
  double sure = 0;  ///< sum of confidences
  Offset middle;    ///< of the points seen

  bool is_body() const { return landmarks >= least_landmarks; }
  bool has(std::size_t point) const { return (seen >> point) & 1U; }
};

/// A body that the estimator has upside down is turned upright here: it is the same person.
Shape shape_of(const intake::Person& person);
/// The same shape elsewhere.
Shape moved(Shape shape, Offset by);
/// `share` of the way from `a` to `b`; points that only one has stay where that one has them.
Shape between(const Shape& a, const Shape& b, double share);

/// Mean distance of the points of `which` that both have, the farthest quarter left aside, over
/// `height_px`. With the sides exchanged where that is nearer: an estimator may do so from one
/// frame to the next. Nothing when they share too few points.
std::optional<double> distance(const Shape& a, const Shape& b, double height_px,
                               PointSet which = every_point);
/// Whether these are one person found twice in one frame: alike in every part.
bool twice_the_same(const Shape& a, const Shape& b);
/// How much larger `b` is than `a` by the points both have: the logarithm of it, with its sign.
double growth(const Shape& a, const Shape& b);
/// From `a` to `b`: of the trunk where both have it.
Offset shift(const Shape& a, const Shape& b);
/// Whether their boxes touch, widened by `margin_px`.
bool boxes_touch(const Shape& a, const Shape& b, double margin_px);

}  // namespace rangecheck::pose
