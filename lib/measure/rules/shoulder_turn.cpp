// SPDX-License-Identifier: MIT
#include "measure/turn.hpp"

namespace rangecheck::measure {
namespace {

// The trunk leans forward along the 3-4-5 triangle, square at address.
constexpr Placed turned[] = {{0.16, 1.228, 0.396}, {-0.16, 1.372, 0.204}, {0.1, 0.9, 0},
                             {-0.1, 0.9, 0},       {0.2, 1.3, 0.3},       {-0.2, 1.3, 0.3},
                             {0.1, 0.9, 0},        {-0.1, 0.9, 0}};
constexpr Placed square_to_target[] = {{0, 1.18, 0.46}, {0, 1.42, 0.14}, {0.1, 0.9, 0},
                                       {-0.1, 0.9, 0},  {0.2, 1.3, 0.3}, {-0.2, 1.3, 0.3},
                                       {0.1, 0.9, 0},   {-0.1, 0.9, 0}};
constexpr Placed beyond[] = {{-0.16, 1.228, 0.396}, {0.16, 1.372, 0.204}, {0.1, 0.9, 0},
                             {-0.1, 0.9, 0},        {0.2, 1.3, 0.3},      {-0.2, 1.3, 0.3},
                             {0.1, 0.9, 0},         {-0.1, 0.9, 0}};
constexpr Placed only_bent[] = {{0.2, 1.3, 0.3}, {-0.2, 1.3, 0.3}, {0.1, 0.9, 0}, {-0.1, 0.9, 0},
                                {0.2, 1.4, 0},   {-0.2, 1.4, 0},   {0.1, 0.9, 0}, {-0.1, 0.9, 0}};
constexpr WorkedExample examples[] = {
    {turned, 36.869897645844, 1e-9, "by construction: 3-4-5 triangle about a leaning trunk"},
    {square_to_target, 90, 1e-9, "by construction"},
    {beyond, 143.130102354156, 1e-9, "by construction: past square"},
    {only_bent, 0, 1e-9, "by construction: bending does not count"},
};

constexpr Rule rules[] = {{
    .id = "shoulder-turn",
    .title = "Shoulder turn",
    .region = Region::shoulders,
    .dimension = Dimension::angle,
    .sign = "since address, about the trunk: 0 unturned, positive turned back",
    .needs = turn::trunk,
    .seen_limit_si = Angle::degrees(6).in_radians(),
    .limit =
        "About the line from mid hips to mid shoulders, not seen from above: there the same turn "
        "of a trunk that leans reads less before 90 deg. The arms carry the shoulder joints along.",
    .source = "twist of the swing-twist decomposition, own definition",
    .examples = examples,
    .measure = from<turn::trunk, turn::trunk, turn::of_shoulders>,
    .at = Positions::from(Position::shaft_parallel_back, Position::impact),
    .address_needs = turn::trunk,
}};

}  // namespace

extern const RuleSet shoulder_turn;
constexpr RuleSet shoulder_turn = rules;

}  // namespace rangecheck::measure
