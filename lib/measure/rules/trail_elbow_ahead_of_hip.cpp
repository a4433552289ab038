// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {trail(Joint::elbow), trail(Joint::hip)};

/// How far the trail elbow is in front of the trail hip joint, along Z.
std::optional<Length> ahead(const std::array<Point, 2>& given) {
  return Length::metres(given[0].z() - given[1].z());
}

constexpr Placed beside[] = {{-0.25, 1.0, 0.1}, {-0.1, 0.9, 0.1}};
constexpr Placed in_front[] = {{-0.1, 1.0, 0.26}, {-0.1, 0.9, -0.06}};
constexpr WorkedExample examples[] = {
    {beside, 0, 1e-9, "by construction"},
    {in_front, 0.32, 1e-9, "by construction"},
};

constexpr Rule rules[] = {{
    .id = "trail-elbow-ahead-of-hip",
    .title = "Trail elbow in front of the trail hip",
    .region = Region::arms,
    .dimension = Dimension::length,
    .sign = "0 level with the hip joint, positive toward the ball",
    .needs = needs,
    .seen_limit_si = Length::inches(1.5).in_metres(),
    .limit = "Grows with forward bend too: read it beside that.",
    .source = "own definition",
    .examples = examples,
    .measure = from<needs, ahead>,
    .at = Positions::of(Position::address, Position::lead_arm_parallel_down,
                        Position::shaft_parallel_down),
}};

}  // namespace

extern const RuleSet trail_elbow_ahead_of_hip;
constexpr RuleSet trail_elbow_ahead_of_hip = rules;

}  // namespace rangecheck::measure
