// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {lead(Joint::ear), trail(Joint::ear), centre(Joint::ball)};

/// How far the middle of the ears is nearer the target than the ball, along X.
std::optional<Length> over(const std::array<Point, 3>& given) {
  return Length::metres(midpoint(given[0], given[1]).x() - given[2].x());
}

constexpr Placed level[] = {{0.1, 1.5, 0.4}, {-0.04, 1.5, 0.4}, {0.03, 0.02, 0.8}};
constexpr Placed behind[] = {{0.02, 1.5, 0.4}, {-0.12, 1.5, 0.4}, {0.1, 0.02, 0.8}};
constexpr WorkedExample examples[] = {
    {level, 0, 1e-9, "by construction"},
    {behind, -0.15, 1e-9, "by construction"},
};

constexpr Rule rules[] = {{
    .id = "head-over-ball",
    .title = "Head over the ball",
    .region = Region::head,
    .dimension = Dimension::length,
    .sign = "0 level with the ball, positive toward the target",
    .needs = needs,
    .seen_limit_si = Length::inches(1.5).in_metres(),
    .limit = "Middle of the head, not the eyes. Each degree by which the target line is not known "
             "moves it by a third of an inch.",
    .source = "mid ears, own definition",
    .examples = examples,
    .measure = from<needs, over>,
    .at = Positions::of(Position::address, Position::top, Position::impact),
}};

}  // namespace

extern const RuleSet head_over_ball;
constexpr RuleSet head_over_ball = rules;

}  // namespace rangecheck::measure
