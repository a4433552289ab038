// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {lead(Joint::elbow), lead(Joint::wrist), centre(Joint::grip_end),
                                centre(Joint::hosel)};

/// Angle between the lead forearm (elbow to wrist) and the shaft (grip end to hosel): 0 in one
/// line, never negative. Any frame. Undefined when either has no length.
std::optional<Angle> set(const std::array<Point, 4>& given) {
  return angle_between(given[1] - given[0], given[3] - given[2]);
}

constexpr Placed in_line[] = {{0.1, 1.0, 0.2}, {0.1, 0.8, 0.3}, {0.1, 0.7, 0.35}, {0.1, 0.1, 0.65}};
constexpr Placed square[] = {{0, 1.2, 0.4}, {-0.2, 1.2, 0.4}, {-0.3, 1.15, 0.4}, {-0.3, 2.0, 0.4}};
constexpr Placed loose[] = {{0, 1.2, 0.4}, {-0.2, 1.2, 0.4}, {-0.3, 1.2, 0.4}, {-0.78, 1.84, 0.4}};
constexpr WorkedExample examples[] = {
    {in_line, 0, 1e-6, "by construction"},
    {square, 90, 1e-9, "by construction"},
    {loose, 53.130102354156, 1e-9, "by construction: 3-4-5 triangle"},
};

constexpr Rule rules[] = {{
    .id = "wrist-set",
    .title = "Wrist set (shaft against the lead forearm)",
    .region = Region::club,
    .dimension = Dimension::angle,
    .sign = "0 forearm and shaft in one line, 90 square",
    .needs = needs,
    .seen_limit_si = Angle::degrees(6).in_radians(),
    .limit = "Set and cup of the wrist together, and how the club lies in the hand.",
    .source = "own definition",
    .examples = examples,
    .measure = from<needs, set>,
    .magnitude = true,
    .at = Positions::from(Position::shaft_parallel_back, Position::shaft_parallel_down),
}};

}  // namespace

extern const RuleSet wrist_set;
constexpr RuleSet wrist_set = rules;

}  // namespace rangecheck::measure
