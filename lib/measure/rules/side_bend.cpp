// SPDX-License-Identifier: MIT
#include "measure/change.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {lead(Joint::shoulder), trail(Joint::shoulder), lead(Joint::hip),
                                trail(Joint::hip)};

constexpr LandmarkId shoulders[] = {lead(Joint::shoulder), trail(Joint::shoulder)};
constexpr LandmarkId hips[] = {lead(Joint::hip), trail(Joint::hip)};

/// Lean of the line from mid hips to mid shoulders away from the target, from vertical, seen square
/// to the target line. Undefined when the mid-points coincide in that view.
std::optional<Angle> bend(const std::array<Point, 4>& given) {
  const Point trunk = midpoint(given[0], given[1]) - midpoint(given[2], given[3]);
  return direction(-trunk.x(), trunk.y());
}

constexpr Placed upright[] = {{0.2, 1.4, 0.3}, {-0.2, 1.4, 0.3}, {0.1, 0.9, 0}, {-0.1, 0.9, 0}};
constexpr Placed bent[] = {{-0.1, 1.34, 0.3}, {-0.5, 1.26, 0.3}, {0.1, 0.9, 0}, {-0.1, 0.9, 0}};
constexpr WorkedExample examples[] = {
    {upright, 0, 1e-9, "by construction: forward bend does not count"},
    {bent, 36.869897645844, 1e-9, "by construction: 3-4-5 triangle"},
};

constexpr Placed tilted_back[] = {{-0.1, 1.34, 0.3}, {-0.5, 1.26, 0.3}, {0.1, 0.9, 0},
                                  {-0.1, 0.9, 0},    {0.2, 1.4, 0.3},   {-0.2, 1.4, 0.3},
                                  {0.1, 0.9, 0},     {-0.1, 0.9, 0}};
constexpr WorkedExample change_examples[] = {
    {tilted_back, 36.869897645844, 1e-9, "by construction: 3-4-5 triangle from upright"}};

constexpr Rule rules[] = {
    {
        .id = "side-bend",
        .title = "Side bend",
        .region = Region::spine,
        .dimension = Dimension::angle,
        .sign = "0 upright, positive away from the target",
        .needs = needs,
        .seen_limit_si = Angle::degrees(6).in_radians(),
        .limit =
            "Seen square to the target line: forward bend makes it read more than along the back.",
        .source = "own definition",
        .examples = examples,
        .measure = from<needs, bend>,
        .at = Positions::from(Position::address, Position::finish),
        .drawing = Drawing{.form = Drawing::Form::from_upright,
                           .view = intake::View::face_on,
                           .from = hips,
                           .to = shoulders,
                           .lean = -1},
    },
    {
        .id = "side-bend-change",
        .title = "Change of side bend",
        .region = Region::spine,
        .dimension = Dimension::angle,
        .sign = "since address: 0 kept, positive more away from the target",
        .needs = needs,
        .seen_limit_si = Angle::degrees(6).in_radians(),
        .limit =
            "Away from the target, wherever the chest faces: a bend of the turned trunk counts as "
            "forward bend too.",
        .source = "own definition",
        .examples = change_examples,
        .measure = from<needs, needs, change<4, bend>>,
        .at = Positions::from(Position::shaft_parallel_back, Position::finish),
        .address_needs = needs,
    }};

}  // namespace

extern const RuleSet side_bend;
constexpr RuleSet side_bend = rules;

}  // namespace rangecheck::measure
