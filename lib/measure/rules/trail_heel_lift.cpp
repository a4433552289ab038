// SPDX-License-Identifier: MIT
#include "measure/change.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {trail(Joint::heel)};

/// Height of the trail heel.
std::optional<Length> height(const std::array<Point, 1>& given) {
  return Length::metres(given[0].y());
}

constexpr Placed up[] = {{-0.15, 0.16, 0.06}, {-0.19, 0.03, 0}};
constexpr WorkedExample examples[] = {{up, 0.13, 1e-9, "by construction"}};

constexpr Rule rules[] = {{
    .id = "trail-heel-lift",
    .title = "Trail heel lift",
    .region = Region::feet,
    .dimension = Dimension::length,
    .sign = "since address: 0 on the ground, positive lifted",
    .needs = needs,
    .seen_limit_si = Length::inches(1.5).in_metres(),
    .limit = "The heel bone as estimators draw it through the shoe.",
    .source = "own definition",
    .examples = examples,
    .measure = from<needs, needs, change<1, height>>,
    .at = Positions::of(Position::impact, Position::shaft_parallel_through, Position::finish),
    .address_needs = needs,
}};

}  // namespace

extern const RuleSet trail_heel_lift;
constexpr RuleSet trail_heel_lift = rules;

}  // namespace rangecheck::measure
