// SPDX-License-Identifier: MIT
#include "measure/turn.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {lead(Joint::wrist),     trail(Joint::wrist), lead(Joint::shoulder),
                                trail(Joint::shoulder), lead(Joint::hip),    trail(Joint::hip)};

/// The line from mid shoulders to mid wrists on the trunk, from the points of `needs`.
turn::LineOnTrunk arms(std::span<const Point> given) {
  const Point shoulders = midpoint(given[2], given[3]);
  return {midpoint(given[0], given[1]) - shoulders, shoulders - midpoint(given[4], given[5])};
}

/// How far the line from mid shoulders to mid wrists has turned back about the trunk since address.
/// Undefined when the hands lie on the trunk's line, or the trunk has no length.
std::optional<Angle> hands_round(const std::array<Point, 12>& given) {
  const std::span<const Point> points(given);
  return turn::about_trunk(arms(points.first(6)), arms(points.last(6)));
}

constexpr Placed to_the_side[] = {{-0.35, 1.3, 0.05}, {-0.45, 1.3, -0.05}, {0.2, 1.4, 0},
                                  {-0.2, 1.4, 0},     {0.1, 0.9, 0},       {-0.1, 0.9, 0},
                                  {0.05, 0.9, 0.4},   {-0.05, 0.9, 0.4},   {0.2, 1.4, 0},
                                  {-0.2, 1.4, 0},     {0.1, 0.9, 0},       {-0.1, 0.9, 0}};
constexpr Placed behind[] = {{-0.24, 1.65, -0.32}, {-0.24, 1.55, -0.32}, {0, 1.4, 0.2},
                             {0, 1.4, -0.2},       {0.1, 0.9, 0},        {-0.1, 0.9, 0},
                             {0.05, 0.9, 0.4},     {-0.05, 0.9, 0.4},    {0.2, 1.4, 0},
                             {-0.2, 1.4, 0},       {0.1, 0.9, 0},        {-0.1, 0.9, 0}};
constexpr WorkedExample examples[] = {
    {to_the_side, 90, 1e-9, "by construction"},
    {behind, 143.130102354156, 1e-9, "by construction: the chest's own 90 deg are in it"},
};

constexpr Rule rules[] = {{
    .id = "arm-turn",
    .title = "Arm turn",
    .region = Region::arms,
    .dimension = Dimension::angle,
    .sign = "hands round the trunk since address: 0 unturned, positive gone back",
    .needs = needs,
    // The hands hang a foot in front of the trunk at address: an inch there is 5 deg.
    .seen_limit_si = Angle::degrees(8).in_radians(),
    .limit = "The turn of the chest is in it: less shoulder turn it is what the arms add. Hands on "
             "the line of the trunk, as over the head, have no turn about it. Wrists, not fingers.",
    .source = "twist of the swing-twist decomposition, own definition",
    .examples = examples,
    .measure = from<needs, needs, hands_round>,
    .at = Positions::from(Position::shaft_parallel_back, Position::impact),
    .address_needs = needs,
}};

}  // namespace

extern const RuleSet arm_turn;
constexpr RuleSet arm_turn = rules;

}  // namespace rangecheck::measure
