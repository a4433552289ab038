// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {centre(Joint::nose),   lead(Joint::ear),       trail(Joint::ear),
                                lead(Joint::shoulder), trail(Joint::shoulder), lead(Joint::hip),
                                trail(Joint::hip)};

/// Angle by which the line from mid ears to nose points below square to the trunk (mid hips to mid
/// shoulders), seen along the target line. Undefined when one of the two has no length there.
std::optional<Angle> chin(const std::array<Point, 7>& given) {
  const auto& nose = given[0];
  const Point ears = midpoint(given[1], given[2]);
  const auto below_level = direction(ears.y() - nose.y(), nose.z() - ears.z());
  const auto trunk = lean_to_ball(midpoint(given[5], given[6]), midpoint(given[3], given[4]));
  if (!below_level || !trunk) return std::nullopt;
  return wrapped(*below_level - *trunk);
}

constexpr Placed upright[] = {{0, 1.55, 0.1}, {0.07, 1.6, 0}, {-0.07, 1.6, 0}, {0.2, 1.4, 0},
                              {-0.2, 1.4, 0}, {0.1, 0.9, 0},  {-0.1, 0.9, 0}};
constexpr Placed bowed_with_trunk[] = {{0, 1.4, 0.6},   {0.07, 1.5, 0.5}, {-0.07, 1.5, 0.5},
                                       {0.2, 1.3, 0.4}, {-0.2, 1.3, 0.4}, {0.1, 0.9, 0},
                                       {-0.1, 0.9, 0}};
constexpr WorkedExample examples[] = {
    {upright, 26.565051177078, 1e-9, "by construction: atan(0.05 / 0.10)"},
    {bowed_with_trunk, 0, 1e-9, "by construction: head and trunk both 45 deg"},
};

constexpr Rule rules[] = {{
    .id = "chin-down",
    .title = "Chin against the trunk",
    .region = Region::head,
    .dimension = Dimension::angle,
    .sign = "0 nose square to the trunk from the ears, positive chin tucked toward the chest",
    .needs = needs,
    .seen_limit_si = Angle::degrees(6).in_radians(),
    .limit =
        "The nose lies below the ears on an upright head too, by some 20 deg (from memory), so "
        "0 is a lifted chin.",
    .source = "own definition",
    .examples = examples,
    .measure = from<needs, chin>,
}};

}  // namespace

extern const RuleSet chin_down;
constexpr RuleSet chin_down = rules;

}  // namespace rangecheck::measure
