// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {lead(Joint::heel), trail(Joint::heel), lead(Joint::big_toe),
                                trail(Joint::big_toe)};

/// How far the trail toe is farther from the ball line than the lead toe, over the mean distance
/// from heel to big toe. Undefined when both feet have no length.
std::optional<Ratio> setback_in_feet(const std::array<Point, 4>& given) {
  const auto& [lead_heel, trail_heel, lead_toe, trail_toe] = given;
  const double foot_m = ((lead_toe - lead_heel).norm() + (trail_toe - trail_heel).norm()) / 2;
  if (foot_m < coincident_m) return std::nullopt;
  return Ratio{(lead_toe.z() - trail_toe.z()) / foot_m};
}

constexpr Placed level[] = {{0.2, 0, 0}, {-0.2, 0, 0}, {0.2, 0, 0.25}, {-0.2, 0, 0.25}};
constexpr Placed half_a_foot[] = {{0.2, 0, 0}, {-0.2, 0, -0.12}, {0.2, 0, 0.24}, {-0.2, 0, 0.12}};
constexpr WorkedExample examples[] = {
    {level, 0, 1e-9, "by construction"},
    {half_a_foot, 0.5, 1e-9, "by construction"},
};

constexpr Rule rules[] = {{
    .id = "trail-toe-setback-feet",
    .title = "Trail toe behind lead toe, in foot lengths",
    .region = Region::feet,
    .dimension = Dimension::ratio,
    .sign = "0 toes level, positive trail toe farther from the ball line (closed)",
    .needs = needs,
    .seen_limit_si = 0.15,  // 1.5 in over a foot of 10 in
    .limit = "Foot length is heel to big toe as landmarks show it, a little less than the shoe.",
    .source = "own definition",
    .examples = examples,
    .measure = from<needs, setback_in_feet>,
}};

}  // namespace

extern const RuleSet trail_toe_setback_feet;
constexpr RuleSet trail_toe_setback_feet = rules;

}  // namespace rangecheck::measure
