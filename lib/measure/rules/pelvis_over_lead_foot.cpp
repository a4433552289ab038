// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {lead(Joint::hip), trail(Joint::hip), lead(Joint::ankle)};

/// How far the middle of the hip joints is nearer the target than the lead ankle, along X.
std::optional<Length> over(const std::array<Point, 3>& given) {
  return Length::metres(midpoint(given[0], given[1]).x() - given[2].x());
}

constexpr Placed stacked[] = {{0.2, 0.95, 0.1}, {0.2, 0.95, -0.1}, {0.2, 0.08, 0}};
constexpr Placed hanging_back[] = {{0.1, 0.9, 0}, {-0.06, 0.9, 0.1}, {0.2, 0.08, 0}};
constexpr WorkedExample examples[] = {
    {stacked, 0, 1e-9, "by construction"},
    {hanging_back, -0.18, 1e-9, "by construction"},
};

constexpr Rule rules[] = {{
    .id = "pelvis-over-lead-foot",
    .title = "Pelvis over the lead foot",
    .region = Region::balance,
    .dimension = Dimension::length,
    .sign = "0 over the lead ankle, negative short of it, positive past it toward the target",
    .needs = needs,
    .seen_limit_si = Length::inches(1.5).in_metres(),
    .limit = "Where the pelvis is, not how much weight the foot bears.",
    .source = "weight on the lead side at the finish: common practice, no source",
    .examples = examples,
    .measure = from<needs, over>,
    .at = Positions::of(Position::impact, Position::finish),
}};

}  // namespace

extern const RuleSet pelvis_over_lead_foot;
constexpr RuleSet pelvis_over_lead_foot = rules;

}  // namespace rangecheck::measure
