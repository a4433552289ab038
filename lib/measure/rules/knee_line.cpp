// SPDX-License-Identifier: MIT
#include "measure/body_line.hpp"

namespace rangecheck::measure {
namespace {

constexpr Rule rules[] = {
    body_line::to_stance<Joint::knee>(
        "knee-line-to-stance", "Knee line against the stance line", Region::knees,
        "Unlike bend of the knees turns it with the hips square.", "own definition"),
    body_line::to_target<Joint::knee>(
        "knee-line-to-target", "Knee line", Region::knees,
        "A camera that is not square adds its own turn; the line against the stance does not.",
        "own definition",
        Positions::of(Position::address) |
            Positions::from(Position::lead_arm_parallel_down, Position::impact)),
};

}  // namespace

extern const RuleSet knee_line;
constexpr RuleSet knee_line = rules;

}  // namespace rangecheck::measure
