// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId to_target[] = {lead(Joint::hip), trail(Joint::hip), lead(Joint::knee),
                                    trail(Joint::knee)};
constexpr LandmarkId to_stance[] = {lead(Joint::hip),     trail(Joint::hip),
                                    lead(Joint::knee),    trail(Joint::knee),
                                    lead(Joint::big_toe), trail(Joint::big_toe)};

/// Line through the mid-points of the thighs (half-way from hip joint to knee), seen from above.
std::optional<Angle> thighs(const std::array<Point, 4>& given) {
  return open_angle(midpoint(given[0], given[2]), midpoint(given[1], given[3]));
}

/// The same line against the line of the toe tips.
std::optional<Angle> thighs_on_stance(const std::array<Point, 6>& given) {
  return open_against(midpoint(given[0], given[2]), midpoint(given[1], given[3]), given[4],
                      given[5]);
}

constexpr Placed open_knees[] = {{0.1, 0.9, 0}, {-0.1, 0.9, 0}, {0.2, 0.5, 0.1}, {-0.2, 0.5, 0.4}};
constexpr Placed on_open_stance[] = {{0.1, 0.9, 0},    {-0.1, 0.9, 0}, {0.2, 0.5, 0.1},
                                     {-0.2, 0.5, 0.1}, {0.2, 0, 0},    {-0.2, 0, 0.4}};
constexpr WorkedExample target_examples[] = {
    {open_knees, 26.565051177078, 1e-9, "by construction: atan(0.15 / 0.30)"}};
constexpr WorkedExample stance_examples[] = {
    {on_open_stance, -45, 1e-9, "by construction: square thighs on a stance 45 deg open"}};

constexpr Rule rules[] = {
    {
        .id = "thigh-line-to-stance",
        .title = "Thigh line against the stance line",
        .region = Region::knees,
        .dimension = Dimension::angle,
        .sign = "0 along the stance line, positive open to it",
        .needs = to_stance,
        .seen_limit_si = Angle::degrees(6).in_radians(),
        .limit = "Half knee line, half hip line: an open hip line can hide a closed knee line.",
        .source = "mid-points of the thighs, own definition",
        .examples = stance_examples,
        .measure = from<to_stance, thighs_on_stance>,
    },
    {
        .id = "thigh-line-to-target",
        .title = "Thigh line",
        .region = Region::knees,
        .dimension = Dimension::angle,
        .sign = "0 along the target line, positive open",
        .needs = to_target,
        .seen_limit_si = Angle::degrees(6).in_radians(),
        .limit = "Half knee line, half hip line. A camera that is not square adds its own turn.",
        .source = "mid-points of the thighs, own definition",
        .examples = target_examples,
        .measure = from<to_target, thighs>,
    },
};

}  // namespace

extern const RuleSet thigh_line;
constexpr RuleSet thigh_line = rules;

}  // namespace rangecheck::measure
