// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {lead(Joint::hip),  lead(Joint::knee),  lead(Joint::ankle),
                                trail(Joint::hip), trail(Joint::knee), trail(Joint::ankle)};

/// Trail knee flexion minus lead knee flexion. Undefined when either is.
std::optional<Angle> difference(const std::array<Point, 6>& given) {
  const auto lead_flexion = flexion(given[0], given[1], given[2]);
  const auto trail_flexion = flexion(given[3], given[4], given[5]);
  if (!lead_flexion || !trail_flexion) return std::nullopt;
  return *trail_flexion - *lead_flexion;
}

constexpr Placed lead_bent[] = {{0.1, 0.5, -0.4}, {0.1, 0.5, 0},  {0.1, 0.1, 0},
                                {-0.1, 0.9, 0},   {-0.1, 0.5, 0}, {-0.1, 0.1, 0}};
constexpr Placed trail_bent[] = {{0.1, 0.9, 0},     {0.1, 0.5, 0},  {0.1, 0.1, 0},
                                 {-0.1, 0.8, -0.3}, {-0.1, 0.5, 0}, {-0.1, 0.1, 0}};
constexpr WorkedExample examples[] = {
    {lead_bent, -90, 1e-6, "by construction"},
    {trail_bent, 45, 1e-6, "by construction"},
};

constexpr Rule rules[] = {{
    .id = "knee-flexion-difference",
    .title = "Trail knee flexion minus lead knee flexion",
    .region = Region::knees,
    .dimension = Dimension::angle,
    .sign = "0 alike, positive trail knee bent more",
    .needs = needs,
    .seen_limit_si = Angle::degrees(6).in_radians(),
    .limit = "From the side one leg hides the other, so it rests on the view from the front too.",
    .source = "own definition",
    .examples = examples,
    .measure = from<needs, difference>,
}};

}  // namespace

extern const RuleSet knee_flexion_difference;
constexpr RuleSet knee_flexion_difference = rules;

}  // namespace rangecheck::measure
