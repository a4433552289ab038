// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {lead(Joint::ear), trail(Joint::ear), lead(Joint::shoulder),
                                trail(Joint::shoulder)};

/// Ear line against shoulder line, both seen from above. Undefined when either has no length there.
std::optional<Angle> turn(const std::array<Point, 4>& given) {
  return open_against(given[0], given[1], given[2], given[3]);
}

constexpr Placed along[] = {{0.07, 1.5, 0.3}, {-0.07, 1.5, 0.3}, {0.2, 1.3, 0.2}, {-0.2, 1.3, 0.2}};
constexpr Placed turned_away[] = {
    {0.06, 1.5, 0.34}, {-0.06, 1.5, 0.25}, {0.2, 1.3, 0.2}, {-0.2, 1.3, 0.2}};
constexpr WorkedExample examples[] = {
    {along, 0, 1e-9, "by construction"},
    {turned_away, -36.869897645844, 1e-9, "by construction: 3-4-5 triangle"},
};

constexpr Rule rules[] = {{
    .id = "ear-line-to-shoulders",
    .title = "Head turn against the shoulders",
    .region = Region::head,
    .dimension = Dimension::angle,
    .sign = "0 ears along the shoulder line, positive face turned toward the target",
    .needs = needs,
    .seen_limit_si = Angle::degrees(6).in_radians(),
    .limit = "The ears are a hand's breadth apart and estimators guess the hidden one.",
    .source = "own definition",
    .examples = examples,
    .measure = from<needs, turn>,
}};

}  // namespace

extern const RuleSet ear_line_to_shoulders;
constexpr RuleSet ear_line_to_shoulders = rules;

}  // namespace rangecheck::measure
