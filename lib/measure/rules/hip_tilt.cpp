// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {lead(Joint::hip), trail(Joint::hip)};

constexpr LandmarkId lead_end[] = {lead(Joint::hip)};
constexpr LandmarkId trail_end[] = {trail(Joint::hip)};

/// Angle of the line through the hip joints to the horizontal. Undefined when they coincide.
std::optional<Angle> tilt(const std::array<Point, 2>& given) {
  return frontal_tilt(given[0], given[1]);
}

constexpr Placed level[] = {{0.1, 0.9, 0}, {-0.1, 0.9, 0.05}};
constexpr Placed trail_low[] = {{0.04, 0.94, 0}, {-0.04, 0.88, 0}};
constexpr WorkedExample examples[] = {
    {level, 0, 1e-9, "by construction"},
    {trail_low, 36.869897645844, 1e-9, "by construction: 3-4-5 triangle"},
};

constexpr Rule rules[] = {{
    .id = "hip-tilt",
    .title = "Hip tilt",
    .region = Region::hips,
    .dimension = Dimension::angle,
    .sign = "0 level, positive trail hip lower",
    .needs = needs,
    .seen_limit_si = Angle::degrees(6).in_radians(),
    .limit = "The hip joints are close together: a centimetre in height is 3 deg.",
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

extern const RuleSet hip_tilt;
constexpr RuleSet hip_tilt = rules;

}  // namespace rangecheck::measure
