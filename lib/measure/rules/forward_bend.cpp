// SPDX-License-Identifier: MIT
#include "measure/change.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {lead(Joint::shoulder), trail(Joint::shoulder), lead(Joint::hip),
                                trail(Joint::hip)};

constexpr LandmarkId shoulders[] = {lead(Joint::shoulder), trail(Joint::shoulder)};
constexpr LandmarkId hips[] = {lead(Joint::hip), trail(Joint::hip)};

/// Lean of the line from mid hips to mid shoulders toward the ball, from vertical, seen along the
/// target line. Undefined when the mid-points coincide in that view.
std::optional<Angle> bend(const std::array<Point, 4>& given) {
  return lean_to_ball(midpoint(given[2], given[3]), midpoint(given[0], given[1]));
}

constexpr Placed upright[] = {{0.2, 1.4, 0}, {-0.2, 1.4, 0}, {0.1, 0.9, 0}, {-0.1, 0.9, 0}};
constexpr Placed bent[] = {{0.1, 1.34, 0.3}, {-0.3, 1.26, 0.3}, {0.1, 0.9, 0}, {-0.1, 0.9, 0}};
constexpr WorkedExample examples[] = {
    {upright, 0, 1e-9, "by construction"},
    {bent, 36.869897645844, 1e-9, "by construction: 3-4-5 triangle, side bend does not count"},
};

constexpr Placed stood_up[] = {{0.2, 1.4, 0},    {-0.2, 1.4, 0},    {0.1, 0.9, 0}, {-0.1, 0.9, 0},
                               {0.1, 1.34, 0.3}, {-0.3, 1.26, 0.3}, {0.1, 0.9, 0}, {-0.1, 0.9, 0}};
constexpr WorkedExample change_examples[] = {
    {stood_up, -36.869897645844, 1e-9, "by construction: upright from the 3-4-5 triangle"}};

constexpr Rule rules[] = {
    {
        .id = "forward-bend",
        .title = "Forward bend",
        .region = Region::spine,
        .dimension = Dimension::angle,
        .sign = "0 upright, positive toward the ball",
        .needs = needs,
        .seen_limit_si = Angle::degrees(4).in_radians(),
        .limit = "Hips to shoulders in one straight line: can't tell a bent back from bent hips.",
        .source = "own definition",
        .examples = examples,
        .measure = from<needs, bend>,
        .at = Positions::from(Position::address, Position::finish),
        .drawing = Drawing{.form = Drawing::Form::from_upright,
                           .view = intake::View::down_the_line,
                           .from = hips,
                           .to = shoulders},
    },
    {
        .id = "forward-bend-change",
        .title = "Change of forward bend",
        .region = Region::spine,
        .dimension = Dimension::angle,
        .sign = "since address: 0 kept, positive more bent, negative stood up",
        .needs = needs,
        .seen_limit_si = Angle::degrees(6).in_radians(),
        .limit = "Toward the ball, wherever the chest faces: a bend of the turned trunk counts as "
                 "side bend too.",
        .source = "own definition",
        .examples = change_examples,
        .measure = from<needs, needs, change<4, bend>>,
        .at = Positions::from(Position::shaft_parallel_back, Position::finish),
        .address_needs = needs,
    }};

}  // namespace

extern const RuleSet forward_bend;
constexpr RuleSet forward_bend = rules;

}  // namespace rangecheck::measure
