// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {lead(Joint::heel), trail(Joint::heel), lead(Joint::hip),
                                trail(Joint::hip)};

/// Ground distance of the heels over the distance of the hip joints. Undefined when the hip joints
/// coincide.
std::optional<Ratio> width_in_hips(const std::array<Point, 4>& given) {
  const auto& [lead_heel, trail_heel, lead_hip, trail_hip] = given;
  const double hips_m = (lead_hip - trail_hip).norm();
  if (hips_m < coincident_m) return std::nullopt;
  return Ratio{ground_distance(lead_heel, trail_heel) / hips_m};
}

constexpr Placed twice[] = {{0.2, 0, 0}, {-0.2, 0, 0}, {0.1, 0.9, 0}, {-0.1, 0.9, 0}};
constexpr Placed turned_hips[] = {
    {0.25, 0, 0}, {-0.25, 0, 0}, {0.06, 0.9, 0.08}, {-0.06, 0.9, -0.08}};
constexpr WorkedExample examples[] = {
    {twice, 2, 1e-9, "by construction"},
    {turned_hips, 2.5, 1e-9, "by construction: turned hips are as broad as square ones"},
};

constexpr Rule rules[] = {{
    .id = "stance-width-to-hips",
    .title = "Stance width in hip widths",
    .region = Region::feet,
    .dimension = Dimension::ratio,
    .sign = "1 means heels as far apart as the hip joints; wider is more",
    .needs = needs,
    .seen_limit_si = 0.2,  // 1.5 in over hip joints 8 in apart
    .limit = "Hip width is joint to joint, about half the breadth of the hips from outside.",
    .source = "own definition",
    .examples = examples,
    .measure = from<needs, width_in_hips>,
}};

}  // namespace

extern const RuleSet stance_width_to_hips;
constexpr RuleSet stance_width_to_hips = rules;

}  // namespace rangecheck::measure
