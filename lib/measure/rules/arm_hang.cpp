// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {lead(Joint::wrist), trail(Joint::wrist), lead(Joint::shoulder),
                                trail(Joint::shoulder)};

/// How far the middle of the wrists is in front of the middle of the shoulders, along Z.
std::optional<Length> hang(const std::array<Point, 4>& given) {
  const Point wrists = midpoint(given[0], given[1]);
  return Length::metres(wrists.z() - midpoint(given[2], given[3]).z());
}

constexpr Placed plumb[] = {{0.05, 0.8, 0.3}, {-0.05, 0.8, 0.3}, {0.2, 1.3, 0.3}, {-0.2, 1.3, 0.3}};
constexpr Placed reaching[] = {
    {0.05, 0.8, 0.5}, {-0.05, 0.8, 0.4}, {0.2, 1.3, 0.2}, {-0.2, 1.3, 0.4}};
constexpr WorkedExample examples[] = {
    {plumb, 0, 1e-9, "by construction"},
    {reaching, 0.15, 1e-9, "by construction"},
};

constexpr Rule rules[] = {{
    .id = "arm-hang",
    .title = "Hands in front of the shoulders",
    .region = Region::arms,
    .dimension = Dimension::length,
    .sign = "0 hands straight under the shoulders, positive reaching toward the ball",
    .needs = needs,
    .seen_limit_si = Length::inches(1.5).in_metres(),
    .limit = "Wrists, not fingers: the grip itself is a few inches nearer the ball.",
    .source = "arms hanging under the shoulders: common practice, no source",
    .examples = examples,
    .measure = from<needs, hang>,
}};

}  // namespace

extern const RuleSet arm_hang;
constexpr RuleSet arm_hang = rules;

}  // namespace rangecheck::measure
