// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {lead(Joint::heel), centre(Joint::ball)};

/// How far the ball is from the lead heel toward the trail foot, along the target line.
std::optional<Length> inside(const std::array<Point, 2>& given) {
  return Length::metres(given[0].x() - given[1].x());
}

constexpr Placed opposite[] = {{0.2, 0, 0}, {0.2, 0.02, 0.8}};
constexpr Placed a_hand_inside[] = {{0.2, 0, 0}, {0.12, 0.02, 0.8}};
constexpr WorkedExample examples[] = {
    {opposite, 0, 1e-9, "by construction"},
    {a_hand_inside, 0.08, 1e-9, "by construction"},
};

constexpr Rule rules[] = {{
    .id = "ball-inside-lead-heel",
    .title = "Ball inside the lead heel",
    .region = Region::feet,
    .dimension = Dimension::length,
    .sign = "0 opposite the lead heel, positive toward the trail foot",
    .needs = needs,
    .seen_limit_si = Length::inches(1.5).in_metres(),
    .limit = "From the middle of the heel. Each degree by which the target line is not known moves "
             "it by half an inch.",
    .source = "ball against the lead heel is common practice, no source",
    .examples = examples,
    .measure = from<needs, inside>,
}};

}  // namespace

extern const RuleSet ball_inside_lead_heel;
constexpr RuleSet ball_inside_lead_heel = rules;

}  // namespace rangecheck::measure
