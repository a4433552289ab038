// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {centre(Joint::grip_end), centre(Joint::hosel)};

constexpr Placed level[] = {{-0.2, 1.7, 0.1}, {0.6, 1.7, 0.2}};
constexpr Placed short_of_level[] = {{-0.2, 1.6, 0}, {0.44, 2.08, 0}};
constexpr Placed past_level[] = {{-0.2, 1.9, 0}, {0.44, 1.42, 0}};
constexpr WorkedExample examples[] = {
    {level, 0, 1e-9, "by construction"},
    {short_of_level, 36.869897645844, 1e-9, "by construction: 3-4-5 triangle"},
    {past_level, -36.869897645844, 1e-9, "by construction: 3-4-5 triangle"},
};

constexpr Rule rules[] = {{
    .id = "shaft-elevation",
    .title = "Shaft above level",
    .region = Region::club,
    .dimension = Dimension::angle,
    .sign = "0 level, positive head above the hands (short of level), negative past level",
    .needs = needs,
    .seen_limit_si = Angle::degrees(6).in_radians(),
    .limit =
        "Of the shaft only. Where club and hands are a blur it leans on how the points were read.",
    .source = "own definition",
    .examples = examples,
    .measure = from<needs, line_elevation>,
    .at = Positions::of(Position::top),
}};

}  // namespace

extern const RuleSet shaft_elevation;
constexpr RuleSet shaft_elevation = rules;

}  // namespace rangecheck::measure
