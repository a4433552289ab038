// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {lead(Joint::shoulder), trail(Joint::shoulder), lead(Joint::hip),
                                trail(Joint::hip)};

/// Lean of the line from mid hips to mid shoulders toward the ball, from vertical, seen along the
/// target line. Undefined when the mid-points coincide in that view.
std::optional<Angle> bend(const std::array<Point, 4>& given) {
  return lean_to_ball(midpoint(given[2], given[3]), midpoint(given[0], given[1]));
}

constexpr Placed upright[] = {{0.2, 1.4, 0}, {-0.2, 1.4, 0}, {0.1, 0.9, 0}, {-0.1, 0.9, 0}};
constexpr Placed bent[] = {{0.1, 1.34, 0.3}, {-0.3, 1.26, 0.3}, {0.1, 0.9, 0}, {-0.1, 0.9, 0}};
constexpr WorkedExample examples[] = {
    {upright, 0, 1e-9, "by construction"},
    {bent, 36.869897645844, 1e-9, "by construction: 3-4-5 triangle, side bend does not count"},
};

constexpr Rule rules[] = {{
    .id = "forward-bend",
    .title = "Forward bend",
    .region = Region::spine,
    .dimension = Dimension::angle,
    .sign = "0 upright, positive toward the ball",
    .needs = needs,
    .seen_limit_si = Angle::degrees(4).in_radians(),
    .limit = "Hips to shoulders in one straight line: can't tell a bent back from bent hips.",
    .source = "own definition",
    .examples = examples,
    .measure = from<needs, bend>,
}};

}  // namespace

extern const RuleSet forward_bend;
constexpr RuleSet forward_bend = rules;

}  // namespace rangecheck::measure
