// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {lead(Joint::big_toe), trail(Joint::big_toe)};

/// How far the trail toe is farther from the ball line than the lead toe, along Z.
std::optional<Length> setback(const std::array<Point, 2>& given) {
  return Length::metres(given[0].z() - given[1].z());
}

constexpr Placed level[] = {{0.3, 0, 0.25}, {-0.3, 0, 0.25}};
constexpr Placed dropped_back[] = {{0.3, 0, 0.25}, {-0.3, 0, 0.2}};
constexpr WorkedExample examples[] = {
    {level, 0, 1e-9, "by construction"},
    {dropped_back, 0.05, 1e-9, "by construction"},
};

constexpr Rule rules[] = {{
    .id = "trail-toe-setback",
    .title = "Trail toe behind lead toe",
    .region = Region::feet,
    .dimension = Dimension::length,
    .sign = "0 toes level, positive trail toe farther from the ball line (closed)",
    .needs = needs,
    .seen_limit_si = Length::inches(1.5).in_metres(),
    .limit = "Square to the target line: a camera that is not square shifts it by stance width "
             "times its turn.",
    .source = "own definition",
    .examples = examples,
    .measure = from<needs, setback>,
}};

}  // namespace

extern const RuleSet trail_toe_setback;
constexpr RuleSet trail_toe_setback = rules;

}  // namespace rangecheck::measure
