// SPDX-License-Identifier: MIT
#include "pose/shape.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>

namespace rangecheck::pose {
namespace {

constexpr std::size_t point_count = shape_points.size();
/// Two shapes that share fewer points can't be compared; of a part of them one point will do.
constexpr std::size_t least_shared = 4;

/// Index of each point's counterpart on the other side.
constexpr auto counterparts = [] {
  std::array<std::size_t, point_count> out{};
  for (std::size_t i = 0; i < point_count; ++i)
    for (std::size_t j = 0; j < point_count; ++j)
      if (shape_points[j].id == mirrored(shape_points[i].id)) out[i] = j;
  return out;
}();

/// Fills what follows from the points.
void measure(Shape& shape) {
  shape.landmarks = 0;
  shape.middle = {};
  constexpr double far = std::numeric_limits<double>::max();
  shape.left_px = shape.top_px = far;
  shape.right_px = shape.bottom_px = -far;
  for (std::size_t i = 0; i < point_count; ++i) {
    if (!shape.has(i)) continue;
    const double x_px = shape.x_px[i], y_px = shape.y_px[i];
    shape.middle.x_px += x_px;
    shape.middle.y_px += y_px;
    shape.left_px = std::min(shape.left_px, x_px);
    shape.right_px = std::max(shape.right_px, x_px);
    shape.top_px = std::min(shape.top_px, y_px);
    shape.bottom_px = std::max(shape.bottom_px, y_px);
    ++shape.landmarks;
  }
  if (shape.landmarks == 0) return;
  shape.middle.x_px /= shape.landmarks;
  shape.middle.y_px /= shape.landmarks;
  shape.height_px = std::max(1.0, shape.bottom_px - shape.top_px);
}

std::optional<double> mean_height(const Shape& shape, std::initializer_list<Joint> joints) {
  double sum_px = 0, count = 0;
  for (std::size_t i = 0; i < point_count; ++i) {
    const bool asked =
        std::find(joints.begin(), joints.end(), shape_points[i].id.joint) != joints.end();
    if (!asked || !shape.has(i)) continue;
    sum_px += shape.y_px[i];
    ++count;
  }
  if (count == 0) return std::nullopt;
  return sum_px / count;
}

/// Everything that is seen of head, hips and feet is the wrong way up.
bool is_upside_down(const Shape& shape) {
  const auto head = mean_height(shape, {Joint::nose, Joint::eye, Joint::ear}),
             hips = mean_height(shape, {Joint::hip}), feet = mean_height(shape, {Joint::ankle});
  const bool above = (head && hips && *head < *hips) || (head && feet && *head < *feet) ||
                     (hips && feet && *hips < *feet);
  return !above && (head && hips) + (head && feet) + (hips && feet) > 0;
}

/// Mean of all but the farthest quarter of the distances, pixels.
std::optional<double> trimmed_distance(const Shape& a, const Shape& b, PointSet which,
                                       bool exchanged) {
  std::array<double, point_count> squares;
  std::size_t count = 0;
  for (std::size_t i = 0; i < point_count; ++i) {
    const std::size_t j = exchanged ? counterparts[i] : i;
    if (!((which >> i) & 1U) || !a.has(i) || !b.has(j)) continue;
    const double dx = a.x_px[i] - b.x_px[j], dy = a.y_px[i] - b.y_px[j];
    squares[count++] = dx * dx + dy * dy;
  }
  if (count < (which == every_point ? least_shared : 1)) return std::nullopt;
  const std::size_t kept = count - count / 4;
  if (kept < count) {
    std::nth_element(squares.begin(), squares.begin() + static_cast<std::ptrdiff_t>(kept),
                     squares.begin() + static_cast<std::ptrdiff_t>(count));
  }
  double sum = 0;
  for (std::size_t k = 0; k < kept; ++k) sum += std::sqrt(squares[k]);
  return sum / static_cast<double>(kept);
}

}  // namespace

Shape shape_of(const intake::Person& person) {
  Shape out;
  for (std::size_t i = 0; i < point_count; ++i) {
    const auto& point = person.image[shape_points[i].id];
    if (!point) continue;
    out.x_px[i] = point->at.x_px;
    out.y_px[i] = point->at.y_px;
    out.seen |= PointSet{1} << i;
    out.sure += point->confidence;
  }
  measure(out);
  if (is_upside_down(out)) {
    for (double& y_px : out.y_px) y_px = out.top_px + out.bottom_px - y_px;
    measure(out);
  }
  return out;
}

Shape moved(Shape shape, Offset by) {
  for (std::size_t i = 0; i < point_count; ++i) {
    shape.x_px[i] += by.x_px;
    shape.y_px[i] += by.y_px;
  }
  shape.middle = {shape.middle.x_px + by.x_px, shape.middle.y_px + by.y_px};
  shape.left_px += by.x_px;
  shape.right_px += by.x_px;
  shape.top_px += by.y_px;
  shape.bottom_px += by.y_px;
  return shape;
}

Shape between(const Shape& a, const Shape& b, double share) {
  Shape out = a;
  for (std::size_t i = 0; i < point_count; ++i) {
    if (!b.has(i)) continue;
    const double part = a.has(i) ? share : 1;
    out.x_px[i] += part * (b.x_px[i] - out.x_px[i]);
    out.y_px[i] += part * (b.y_px[i] - out.y_px[i]);
  }
  out.seen |= b.seen;
  measure(out);
  return out;
}

std::optional<double> distance(const Shape& a, const Shape& b, double height_px, PointSet which) {
  // Nearer than this no exchange can be meant; farther than that none would help.
  constexpr double same = 0.02, another = 0.5;
  // Whole bodies so far from each other need no closer look.
  constexpr double far = 1.5;
  const double apart_px =
      std::max(std::abs(a.middle.x_px - b.middle.x_px), std::abs(a.middle.y_px - b.middle.y_px));
  if (which == every_point && apart_px > far * height_px) return apart_px / height_px;
  const auto straight = trimmed_distance(a, b, which, false);
  if (straight && (*straight < same * height_px || *straight > another * height_px))
    return *straight / height_px;
  const auto exchanged = trimmed_distance(a, b, which, true);
  if (!straight && !exchanged) return std::nullopt;
  if (!straight || !exchanged) return (straight ? *straight : *exchanged) / height_px;
  return std::min(*straight, *exchanged) / height_px;
}

bool twice_the_same(const Shape& a, const Shape& b) {
  // Over height: of the whole, and of the part that is farthest off.
  constexpr double whole = 0.04, part = 0.07;
  const double height_px = std::max(a.height_px, b.height_px);
  if (distance(a, b, height_px).value_or(1) > whole) return false;
  return std::all_of(points_of_part.begin(), points_of_part.end(), [&](PointSet points) {
    return distance(a, b, height_px, points).value_or(0) < part;
  });
}

double growth(const Shape& a, const Shape& b) {
  // Trunk and legs keep their size in a swing; arms and head may be anywhere.
  constexpr PointSet steady = points_of({Part::chest, Part::hips, Part::lead_leg, Part::trail_leg});
  PointSet both = a.seen & b.seen & steady;
  if (std::popcount(both) < static_cast<int>(least_shared)) both = a.seen & b.seen;
  double count = 0;
  Offset middle_a, middle_b;
  for (std::size_t i = 0; i < point_count; ++i) {
    if (!((both >> i) & 1U)) continue;
    ++count;
    middle_a.x_px += a.x_px[i], middle_a.y_px += a.y_px[i];
    middle_b.x_px += b.x_px[i], middle_b.y_px += b.y_px[i];
  }
  if (count < static_cast<double>(least_shared)) return std::log(b.height_px / a.height_px);
  double spread_a = 0, spread_b = 0;
  for (std::size_t i = 0; i < point_count; ++i) {
    if (!((both >> i) & 1U)) continue;
    const double ax = a.x_px[i] - middle_a.x_px / count, ay = a.y_px[i] - middle_a.y_px / count,
                 bx = b.x_px[i] - middle_b.x_px / count, by = b.y_px[i] - middle_b.y_px / count;
    spread_a += ax * ax + ay * ay;
    spread_b += bx * bx + by * by;
  }
  return std::log(std::max(1.0, spread_b) / std::max(1.0, spread_a)) / 2;
}

Offset shift(const Shape& a, const Shape& b) {
  PointSet both = a.seen & b.seen & points_of({Part::chest, Part::hips});
  if (both == 0) both = a.seen & b.seen;
  if (both == 0) return {b.middle.x_px - a.middle.x_px, b.middle.y_px - a.middle.y_px};
  Offset sum;
  double count = 0;
  for (std::size_t i = 0; i < point_count; ++i) {
    if (!((both >> i) & 1U)) continue;
    sum.x_px += b.x_px[i] - a.x_px[i];
    sum.y_px += b.y_px[i] - a.y_px[i];
    ++count;
  }
  return {sum.x_px / count, sum.y_px / count};
}

bool boxes_touch(const Shape& a, const Shape& b, double margin_px) {
  return a.left_px - margin_px < b.right_px && b.left_px - margin_px < a.right_px &&
         a.top_px - margin_px < b.bottom_px && b.top_px - margin_px < a.bottom_px;
}

}  // namespace rangecheck::pose
