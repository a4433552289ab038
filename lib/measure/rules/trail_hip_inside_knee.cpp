// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {trail(Joint::hip), trail(Joint::knee)};

/// How far the trail hip joint is from above the trail knee toward the target, along X.
std::optional<Length> inside(const std::array<Point, 2>& given) {
  return Length::metres(given[0].x() - given[1].x());
}

constexpr Placed over[] = {{-0.15, 0.9, -0.05}, {-0.15, 0.5, 0.1}};
constexpr Placed loaded[] = {{-0.09, 0.9, -0.1}, {-0.15, 0.5, 0.1}};
constexpr Placed swayed[] = {{-0.2, 0.9, 0}, {-0.15, 0.5, 0.1}};
constexpr WorkedExample examples[] = {
    {over, 0, 1e-9, "by construction"},
    {loaded, 0.06, 1e-9, "by construction"},
    {swayed, -0.05, 1e-9, "by construction"},
};

constexpr Rule rules[] = {{
    .id = "trail-hip-inside-knee",
    .title = "Trail hip inside the trail knee",
    .region = Region::hips,
    .dimension = Dimension::length,
    .sign = "0 over the knee, positive toward the target, negative swayed past the knee",
    .needs = needs,
    .seen_limit_si = Length::inches(1.5).in_metres(),
    .limit = "Hip joint, not the outline of the hip, which lies a hand's breadth farther out.",
    .source = "common practice, no source",
    .examples = examples,
    .measure = from<needs, inside>,
    .at = Positions::from(Position::shaft_parallel_back, Position::top),
}};

}  // namespace

extern const RuleSet trail_hip_inside_knee;
constexpr RuleSet trail_hip_inside_knee = rules;

}  // namespace rangecheck::measure
