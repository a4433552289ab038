// SPDX-License-Identifier: MIT
#include "measure/body_line.hpp"

namespace rangecheck::measure {
namespace {

constexpr Rule rules[] = {
    body_line::to_stance<Joint::shoulder>(
        "shoulder-line-to-stance", "Shoulder line against the stance line", Region::shoulders,
        "Through the shoulder joints, which the arms carry along: not the turn of the rib cage.",
        "shoulder joint to shoulder joint, own definition"),
    body_line::to_target<Joint::shoulder>(
        "shoulder-line-to-target", "Shoulder line", Region::shoulders,
        "Seen from above, where a leaning trunk shows less than its turn. A camera that is not "
        "square adds its own.",
        "shoulder joint to shoulder joint, own definition", body_line::going_through),
};

}  // namespace

extern const RuleSet shoulder_line;
constexpr RuleSet shoulder_line = rules;

}  // namespace rangecheck::measure
