// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {lead(Joint::wrist), trail(Joint::wrist), lead(Joint::hip),
                                lead(Joint::knee)};

/// Distance from the middle of the wrists to the line through lead hip joint and lead knee, seen
/// along the target line; positive with the hands on the ball side of the thigh. Undefined when hip
/// and knee coincide in that view.
std::optional<Length> gap(const std::array<Point, 4>& given) {
  const Point hands = in_profile(midpoint(given[0], given[1]) - given[2]);
  const Point thigh = in_profile(given[3] - given[2]);
  if (thigh.norm() < coincident_m) return std::nullopt;
  return Length::metres(hands.cross(thigh).x() / thigh.norm());
}

constexpr Placed upright_thigh[] = {
    {0.05, 0.7, 0.25}, {-0.05, 0.7, 0.25}, {0.1, 0.9, 0}, {0.1, 0.5, 0}};
constexpr Placed sloping_thigh[] = {
    {0.05, 0.9, 0.3}, {-0.05, 0.9, 0.3}, {0.1, 0.9, -0.1}, {0.1, 0.5, 0.2}};
constexpr WorkedExample examples[] = {
    {upright_thigh, 0.25, 1e-9, "by construction"},
    {sloping_thigh, 0.32, 1e-9, "by construction: 0.4 m times the cosine 4/5 of a 3-4-5 triangle"},
};

constexpr Rule rules[] = {{
    .id = "hands-from-lead-thigh",
    .title = "Hands in front of the lead thigh",
    .region = Region::hands,
    .dimension = Dimension::length,
    .sign = "0 on the thigh's bone line, positive toward the ball",
    .needs = needs,
    .seen_limit_si = Length::inches(1.5).in_metres(),
    .limit =
        "From the middle of the thigh to the wrists: the gap between skin and grip is smaller.",
    .source = "a hand's breadth or two from the thigh: common practice, no source",
    .examples = examples,
    .measure = from<needs, gap>,
}};

}  // namespace

extern const RuleSet hands_from_lead_thigh;
constexpr RuleSet hands_from_lead_thigh = rules;

}  // namespace rangecheck::measure
