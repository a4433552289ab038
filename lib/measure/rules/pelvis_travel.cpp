// SPDX-License-Identifier: MIT
#include "measure/travel.hpp"

namespace rangecheck::measure {
namespace {

constexpr std::string_view source = "middle of the hip joints, own definition";

constexpr Rule rules[] = {
    travel::rule<Joint::hip, 0>(
        "pelvis-sway", "Pelvis sway", Region::hips,
        "since address: 0 in place, positive toward the target",
        "The middle of the hip joints: a turn about the trail hip moves it too.", source),
    travel::rule<Joint::hip, 1>(
        "pelvis-lift", "Pelvis lift", Region::hips, "since address: 0 in place, positive higher",
        "The middle of the hip joints: one hip that rises counts half.", source),
    travel::rule<Joint::hip, 2>("pelvis-to-ball", "Pelvis toward the ball", Region::hips,
                                "since address: 0 in place, positive toward the ball",
                                "The middle of the hip joints, not the seat: what the back of the "
                                "hips does on a wall behind "
                                "it depends on their turn too.",
                                source),
};

}  // namespace

extern const RuleSet pelvis_travel;
constexpr RuleSet pelvis_travel = rules;

}  // namespace rangecheck::measure
