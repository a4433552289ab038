// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {centre(Joint::grip_end), centre(Joint::hosel)};

constexpr LandmarkId hosel[] = {centre(Joint::hosel)};
constexpr LandmarkId grip[] = {centre(Joint::grip_end)};

/// Angle of the shaft above the ground, seen along the target line: 0 lying toward the ball, 90°
/// upright. Undefined when the two ends coincide in that view.
std::optional<Angle> above_ground(const std::array<Point, 2>& given) {
  const Point shaft = given[0] - given[1];
  return direction(shaft.y(), -shaft.z());
}

constexpr Placed upright[] = {{0, 0.9, 0.8}, {0, 0.02, 0.8}};
constexpr Placed sloping[] = {{0.05, 0.83, 0.2}, {0, 0.03, 0.8}};
constexpr WorkedExample examples[] = {
    {upright, 90, 1e-9, "by construction"},
    {sloping, 53.130102354156, 1e-9, "by construction: 3-4-5 triangle, lean does not count"},
};

constexpr Rule rules[] = {{
    .id = "shaft-angle",
    .title = "Shaft angle",
    .region = Region::club,
    .dimension = Dimension::angle,
    .sign = "0 along the ground, 90 upright, seen along the target line",
    .needs = needs,
    .seen_limit_si = Angle::degrees(4).in_radians(),  // clubs differ by less than 10 deg in lie
    .limit = "Not the lie of the club: the sole may not rest flat.",
    .source = "common practice, no source",
    .examples = examples,
    .measure = from<needs, above_ground>,
    .at = Positions::of(Position::address, Position::impact),
    .drawing = Drawing{.form = Drawing::Form::from_level,
                       .view = intake::View::down_the_line,
                       .from = hosel,
                       .to = grip},
}};

}  // namespace

extern const RuleSet shaft_angle;
constexpr RuleSet shaft_angle = rules;

}  // namespace rangecheck::measure
