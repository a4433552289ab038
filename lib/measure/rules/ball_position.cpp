// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {lead(Joint::heel), trail(Joint::heel), centre(Joint::ball)};

/// Where the ball lies between the heels along the target line: 0 at the trail heel, 1 at the lead
/// heel. Undefined when no heel is nearer the target than the other.
std::optional<Ratio> position(const std::array<Point, 3>& given) {
  const auto& [lead_heel, trail_heel, ball] = given;
  const double stance_m = lead_heel.x() - trail_heel.x();
  if (std::abs(stance_m) < coincident_m) return std::nullopt;
  return Ratio{(ball.x() - trail_heel.x()) / stance_m};
}

constexpr Placed middle[] = {{0.2, 0, 0}, {-0.2, 0, 0.05}, {0, 0.02, 0.7}};
constexpr Placed forward[] = {{0.2, 0, 0}, {-0.2, 0, 0}, {0.16, 0.02, 0.9}};
constexpr WorkedExample examples[] = {
    {middle, 0.5, 1e-9, "by construction"},
    {forward, 0.9, 1e-9, "by construction"},
};

constexpr Rule rules[] = {{
    .id = "ball-position",
    .title = "Ball position between the heels",
    .region = Region::feet,
    .dimension = Dimension::ratio,
    .sign = "0 at the trail heel, 0.5 in the middle, 1 at the lead heel",
    .needs = needs,
    .seen_limit_si = 0.1,  // 1.5 in of a stance of 15 in
    .limit = "Along the target line, with the ball a stride in front of the heels: each degree by "
             "which the line is not known moves it by half an inch.",
    .source = "ball against the heels is common practice, no source",
    .examples = examples,
    .measure = from<needs, position>,
}};

}  // namespace

extern const RuleSet ball_position;
constexpr RuleSet ball_position = rules;

}  // namespace rangecheck::measure
