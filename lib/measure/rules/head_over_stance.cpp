// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {lead(Joint::ear), trail(Joint::ear), lead(Joint::heel),
                                trail(Joint::heel)};

/// How far the middle of the ears is nearer the target than the middle of the heels, along X.
std::optional<Length> over(const std::array<Point, 4>& given) {
  return Length::metres(midpoint(given[0], given[1]).x() - midpoint(given[2], given[3]).x());
}

constexpr Placed centred[] = {{0.07, 1.5, 0.4}, {-0.07, 1.5, 0.4}, {0.2, 0, 0}, {-0.2, 0, 0}};
constexpr Placed behind[] = {{0.03, 1.5, 0.4}, {-0.11, 1.5, 0.4}, {0.2, 0, 0}, {-0.18, 0, 0}};
constexpr WorkedExample examples[] = {
    {centred, 0, 1e-9, "by construction"},
    {behind, -0.05, 1e-9, "by construction"},
};

constexpr Rule rules[] = {{
    .id = "head-over-stance",
    .title = "Head over the stance",
    .region = Region::head,
    .dimension = Dimension::length,
    .sign = "0 over the middle of the stance, positive toward the target",
    .needs = needs,
    .seen_limit_si = Length::inches(1.5).in_metres(),
    .limit = "Middle of the head against the middle of the heels, along the target line.",
    .source = "mid ears, own definition",
    .examples = examples,
    .measure = from<needs, over>,
}};

}  // namespace

extern const RuleSet head_over_stance;
constexpr RuleSet head_over_stance = rules;

}  // namespace rangecheck::measure
