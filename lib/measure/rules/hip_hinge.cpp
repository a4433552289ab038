// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {lead(Joint::shoulder), trail(Joint::shoulder), lead(Joint::hip),
                                trail(Joint::hip),     lead(Joint::knee),      trail(Joint::knee)};

constexpr LandmarkId shoulders[] = {lead(Joint::shoulder), trail(Joint::shoulder)};
constexpr LandmarkId hips[] = {lead(Joint::hip), trail(Joint::hip)};
constexpr LandmarkId knees[] = {lead(Joint::knee), trail(Joint::knee)};

/// Bend between trunk (mid hips to mid shoulders) and thighs (mid hips to mid knees): 180° minus
/// the angle between them, 0 standing straight. Undefined when two of the mid-points coincide.
std::optional<Angle> hinge(const std::array<Point, 6>& given) {
  return flexion(midpoint(given[0], given[1]), midpoint(given[2], given[3]),
                 midpoint(given[4], given[5]));
}

constexpr Placed straight[] = {{0.2, 1.4, 0},  {-0.2, 1.4, 0}, {0.1, 0.9, 0},
                               {-0.1, 0.9, 0}, {0.1, 0.5, 0},  {-0.1, 0.5, 0}};
constexpr Placed hinged[] = {{0.2, 1.3, 0.4}, {-0.2, 1.3, 0.4}, {0.1, 0.9, 0},
                             {-0.1, 0.9, 0},  {0.1, 0.5, 0},    {-0.1, 0.5, 0}};
constexpr WorkedExample examples[] = {
    {straight, 0, 1e-6, "by construction"},
    {hinged, 45, 1e-9, "by construction: trunk 45 deg forward over upright thighs"},
};

constexpr Rule rules[] = {{
    .id = "hip-hinge",
    .title = "Hip hinge",
    .region = Region::hips,
    .dimension = Dimension::angle,
    .sign = "0 standing straight, positive folded forward at the hips",
    .needs = needs,
    .seen_limit_si = Angle::degrees(6).in_radians(),
    .limit = "A rounded back counts as hinge: read it beside spine curve.",
    .source = "three-point angle, own definition",
    .examples = examples,
    .measure = from<needs, hinge>,
    .magnitude = true,
    .drawing = Drawing{.form = Drawing::Form::bend,
                       .view = intake::View::down_the_line,
                       .from = shoulders,
                       .to = knees,
                       .joint = hips},
}};

}  // namespace

extern const RuleSet hip_hinge;
constexpr RuleSet hip_hinge = rules;

}  // namespace rangecheck::measure
