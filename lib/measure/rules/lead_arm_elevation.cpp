// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {lead(Joint::shoulder), lead(Joint::wrist)};

constexpr Placed level[] = {{0.1, 1.2, 0.4}, {-0.3, 1.2, 0.1}};
constexpr Placed raised[] = {{0.05, 1.2, 0.4}, {-0.25, 1.5, 0.0}};
constexpr Placed lowered[] = {{0.15, 1.3, 0.25}, {-0.03, 0.9, 0.49}};
constexpr WorkedExample examples[] = {
    {level, 0, 1e-9, "by construction"},
    {raised, 30.963756532074, 1e-9, "by construction: atan(0.3 / 0.5)"},
    {lowered, -53.130102354156, 1e-9, "by construction: 3-4-5 triangle"},
};

constexpr Rule rules[] = {{
    .id = "lead-arm-elevation",
    .title = "Lead arm above level",
    .region = Region::arms,
    .dimension = Dimension::angle,
    .sign = "0 level, positive hand above the shoulder, -90 hanging",
    .needs = needs,
    .seen_limit_si = Angle::degrees(6).in_radians(),
    .limit =
        "Shoulder to wrist in one straight line, whatever the elbow does. Not measured where the "
        "arm is level by what the position means.",
    .source = "own definition",
    .examples = examples,
    .measure = from<needs, line_elevation>,
    .at = Positions::of(Position::shaft_parallel_back, Position::top, Position::shaft_parallel_down,
                        Position::shaft_parallel_through),
}};

}  // namespace

extern const RuleSet lead_arm_elevation;
constexpr RuleSet lead_arm_elevation = rules;

}  // namespace rangecheck::measure
