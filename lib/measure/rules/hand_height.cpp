// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {lead(Joint::wrist), trail(Joint::wrist)};

/// Height of the middle of the wrists above the ground.
std::optional<Length> height(const std::array<Point, 2>& given) {
  return Length::metres(midpoint(given[0], given[1]).y());
}

constexpr Placed low[] = {{0.05, 0.72, 0.3}, {-0.05, 0.68, 0.3}};
constexpr WorkedExample examples[] = {{low, 0.7, 1e-9, "by construction"}};

constexpr Rule rules[] = {{
    .id = "hand-height",
    .title = "Height of the hands",
    .region = Region::hands,
    .dimension = Dimension::length,
    .sign = "above the ground the heels stand on; higher is more",
    .needs = needs,
    .seen_limit_si = Length::inches(1.5).in_metres(),
    .limit = "Wrists, not fingers. Says nothing without the club: a longer club raises the hands.",
    .source = "own definition",
    .examples = examples,
    .measure = from<needs, height>,
}};

}  // namespace

extern const RuleSet hand_height;
constexpr RuleSet hand_height = rules;

}  // namespace rangecheck::measure
