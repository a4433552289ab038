// SPDX-License-Identifier: MIT
#include "measure/change.hpp"
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

constexpr Placed raised[] = {
    {0.15, 0.8, 0.3}, {0.05, 0.74, 0.35}, {0.05, 0.72, 0.3}, {-0.05, 0.68, 0.3}};
constexpr WorkedExample change_examples[] = {{raised, 0.07, 1e-9, "by construction"}};

constexpr Rule rules[] = {
    {
        .id = "hand-height",
        .title = "Height of the hands",
        .region = Region::hands,
        .dimension = Dimension::length,
        .sign = "above the ground the heels stand on; higher is more",
        .needs = needs,
        .seen_limit_si = Length::inches(1.5).in_metres(),
        .limit =
            "Wrists, not fingers. Says nothing without the club: a longer club raises the hands.",
        .source = "own definition",
        .examples = examples,
        .measure = from<needs, height>,
        .at = Positions::of(Position::address, Position::top, Position::impact),
    },
    {
        .id = "hand-height-change",
        .title = "Hands higher than they were",
        .region = Region::hands,
        .dimension = Dimension::length,
        .sign = "since address: 0 as high, positive higher",
        .needs = needs,
        .seen_limit_si = Length::inches(1.5).in_metres(),
        .limit = "Wrists, not fingers.",
        .source = "own definition",
        .examples = change_examples,
        .measure = from<needs, needs, change<2, height>>,
        .at = Positions::of(Position::impact),
        .address_needs = needs,
    }};

}  // namespace

extern const RuleSet hand_height;
constexpr RuleSet hand_height = rules;

}  // namespace rangecheck::measure
