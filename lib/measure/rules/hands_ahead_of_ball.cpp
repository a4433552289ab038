// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {lead(Joint::wrist), trail(Joint::wrist), centre(Joint::ball)};

/// How far the middle of the wrists is nearer the target than the ball, along X.
std::optional<Length> ahead(const std::array<Point, 3>& given) {
  return Length::metres(midpoint(given[0], given[1]).x() - given[2].x());
}

constexpr Placed level[] = {{0.05, 0.8, 0.3}, {-0.05, 0.8, 0.3}, {0, 0.02, 0.8}};
constexpr Placed pressed[] = {{0.15, 0.8, 0.3}, {0.05, 0.8, 0.3}, {0.02, 0.02, 0.8}};
constexpr WorkedExample examples[] = {
    {level, 0, 1e-9, "by construction"},
    {pressed, 0.08, 1e-9, "by construction"},
};

constexpr Rule rules[] = {{
    .id = "hands-ahead-of-ball",
    .title = "Hands ahead of the ball",
    .region = Region::hands,
    .dimension = Dimension::length,
    .sign = "0 level with the ball, positive toward the target",
    .needs = needs,
    .seen_limit_si = Length::inches(1.5).in_metres(),
    .limit =
        "Hands are nearer the golfer than the ball is: each degree by which the target line is "
        "not known moves it by a third of an inch.",
    .source = "own definition",
    .examples = examples,
    .measure = from<needs, ahead>,
    .at = Positions::of(Position::address, Position::impact),
}};

}  // namespace

extern const RuleSet hands_ahead_of_ball;
constexpr RuleSet hands_ahead_of_ball = rules;

}  // namespace rangecheck::measure
