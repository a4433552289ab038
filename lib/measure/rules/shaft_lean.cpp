// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {centre(Joint::grip_end), centre(Joint::hosel)};

constexpr LandmarkId hosel[] = {centre(Joint::hosel)};
constexpr LandmarkId grip[] = {centre(Joint::grip_end)};

/// Lean of the shaft (hosel to grip end) toward the target, from vertical, seen square to the
/// target line. Undefined when the two ends coincide in that view.
std::optional<Angle> lean(const std::array<Point, 2>& given) {
  const Point shaft = given[0] - given[1];
  return direction(shaft.x(), shaft.y());
}

constexpr Placed upright[] = {{0, 0.8, 0.3}, {0, 0.02, 0.8}};
constexpr Placed forward[] = {{0.6, 0.83, 0.3}, {0, 0.03, 0.8}};
constexpr WorkedExample examples[] = {
    {upright, 0, 1e-9, "by construction"},
    {forward, 36.869897645844, 1e-9, "by construction: 3-4-5 triangle"},
};

constexpr Rule rules[] = {{
    .id = "shaft-lean",
    .title = "Shaft lean",
    .region = Region::club,
    .dimension = Dimension::angle,
    .sign = "0 upright seen from the front, positive grip toward the target",
    .needs = needs,
    .seen_limit_si = Angle::degrees(4).in_radians(),  // whole range at address is about 10 deg
    .limit = "Lean of the shaft, not of the face: says nothing of the loft that is left.",
    .source = "common practice, no source",
    .examples = examples,
    .measure = from<needs, lean>,
    .at = Positions::of(Position::address, Position::impact),
    .drawing = Drawing{.form = Drawing::Form::from_upright,
                       .view = intake::View::face_on,
                       .from = hosel,
                       .to = grip},
}};

}  // namespace

extern const RuleSet shaft_lean;
constexpr RuleSet shaft_lean = rules;

}  // namespace rangecheck::measure
