// SPDX-License-Identifier: MIT
#include "measure/turn.hpp"

namespace rangecheck::measure {
namespace {

constexpr Placed turned[] = {{0.08, 0.9, 0.06}, {-0.08, 0.9, -0.06}, {0.1, 0.9, 0}, {-0.1, 0.9, 0}};
constexpr Placed opened[] = {
    {0.06, 0.93, -0.08}, {-0.06, 0.87, 0.08}, {0.1, 0.9, 0}, {-0.1, 0.9, 0}};
constexpr Placed from_open[] = {
    {-0.06, 0.9, 0.08}, {0.06, 0.9, -0.08}, {0.08, 0.9, -0.06}, {-0.08, 0.9, 0.06}};
constexpr WorkedExample examples[] = {
    {turned, 36.869897645844, 1e-9, "by construction: 3-4-5 triangle"},
    {opened, -53.130102354156, 1e-9, "by construction: 3-4-5 triangle, tilt does not count"},
    {from_open, 163.739795291688, 1e-9, "by construction: from 36.87 deg open to 126.87 deg back"},
};

constexpr Rule rules[] = {{
    .id = "hip-turn",
    .title = "Hip turn",
    .region = Region::hips,
    .dimension = Dimension::angle,
    .sign = "since address, seen from above: 0 unturned, positive turned back, negative opened",
    .needs = turn::hips,
    // As the hip line: the joints are a hand's breadth apart, and two good films leave 6 to 7.
    .seen_limit_si = Angle::degrees(7.5).in_radians(),
    .limit =
        "About the vertical, since two hip joints show no other axis: a pelvis that leans reads a "
        "little less than about its own.",
    .source = "hip joint to hip joint, own definition",
    .examples = examples,
    .measure = from<turn::hips, turn::hips, turn::of_hips>,
    .at = Positions::from(Position::shaft_parallel_back, Position::impact),
    .address_needs = turn::hips,
}};

}  // namespace

extern const RuleSet hip_turn;
constexpr RuleSet hip_turn = rules;

}  // namespace rangecheck::measure
