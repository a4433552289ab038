// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {lead(Joint::shoulder), trail(Joint::shoulder),
                                centre(Joint::mid_spine), lead(Joint::hip), trail(Joint::hip)};

/// Forward bend of the upper half of the back (mid-spine to mid shoulders) minus that of the lower
/// half (mid hips to mid-spine), seen along the target line: in size the bend of the three-point
/// line at the mid-spine, signed so that a flat back reads without bias. Undefined when a half has
/// no length.
std::optional<Angle> curve(const std::array<Point, 5>& given) {
  const auto& middle = given[2];
  const auto upper = lean_to_ball(middle, midpoint(given[0], given[1]));
  const auto lower = lean_to_ball(midpoint(given[3], given[4]), middle);
  if (!upper || !lower) return std::nullopt;
  return wrapped(*upper - *lower);
}

constexpr Placed flat[] = {
    {0.2, 1.3, 0.3}, {-0.2, 1.3, 0.3}, {0, 1.1, 0.15}, {0.1, 0.9, 0}, {-0.1, 0.9, 0}};
constexpr Placed rounded[] = {
    {0.2, 1.3, 0.2}, {-0.2, 1.3, 0.2}, {0, 1.1, 0}, {0.1, 0.9, 0}, {-0.1, 0.9, 0}};
constexpr Placed arched[] = {
    {0.2, 1.3, 0.2}, {-0.2, 1.3, 0.2}, {0, 1.1, 0.2}, {0.1, 0.9, 0}, {-0.1, 0.9, 0}};
constexpr WorkedExample examples[] = {
    {flat, 0, 1e-9, "by construction"},
    {rounded, 45, 1e-9, "by construction"},
    {arched, -45, 1e-9, "by construction"},
};

constexpr Rule rules[] = {{
    .id = "spine-curve",
    .title = "Spine curve",
    .region = Region::spine,
    .dimension = Dimension::angle,
    .sign = "0 flat, positive rounded, negative arched",
    .needs = needs,
    .seen_limit_si = Angle::degrees(6).in_radians(),
    .limit = "One point of the back: a rounded upper back and an arched lower one can cancel out.",
    .source = "own definition",
    .examples = examples,
    .measure = from<needs, curve>,
}};

}  // namespace

extern const RuleSet spine_curve;
constexpr RuleSet spine_curve = rules;

}  // namespace rangecheck::measure
