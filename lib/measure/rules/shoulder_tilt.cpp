// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {lead(Joint::shoulder), trail(Joint::shoulder)};

constexpr LandmarkId lead_end[] = {lead(Joint::shoulder)};
constexpr LandmarkId trail_end[] = {trail(Joint::shoulder)};

/// Angle of the line through the shoulder joints to the horizontal. Undefined when they coincide.
std::optional<Angle> tilt(const std::array<Point, 2>& given) {
  return frontal_tilt(given[0], given[1]);
}

constexpr Placed level[] = {{0.2, 1.3, 0.2}, {-0.2, 1.3, 0.3}};
constexpr Placed trail_low[] = {{0.16, 1.34, 0.2}, {-0.16, 1.1, 0.2}};
constexpr WorkedExample examples[] = {
    {level, 0, 1e-9, "by construction: turn does not count"},
    {trail_low, 36.869897645844, 1e-9, "by construction: 3-4-5 triangle"},
};

constexpr Rule rules[] = {{
    .id = "shoulder-tilt",
    .title = "Shoulder tilt",
    .region = Region::shoulders,
    .dimension = Dimension::angle,
    .sign = "0 level, positive trail shoulder lower",
    .needs = needs,
    .seen_limit_si = Angle::degrees(6).in_radians(),
    .limit = "A shrugged shoulder reads as tilt.",
    .source = "own definition",
    .examples = examples,
    .measure = from<needs, tilt>,
    .at = Positions::of(Position::address, Position::top, Position::impact),
    .drawing = Drawing{.form = Drawing::Form::from_level,
                       .view = intake::View::face_on,
                       .from = trail_end,
                       .to = lead_end},
}};

}  // namespace

extern const RuleSet shoulder_tilt;
constexpr RuleSet shoulder_tilt = rules;

}  // namespace rangecheck::measure
