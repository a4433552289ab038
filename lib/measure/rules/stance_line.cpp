// SPDX-License-Identifier: MIT
#include "measure/body_line.hpp"

namespace rangecheck::measure {
namespace {

constexpr Rule rules[] = {body_line::to_target<Joint::big_toe>(
    "stance-line", "Stance line", Region::feet,
    "Through the tips of the big toes: unlike flare of the two feet turns it with the heels level.",
    "toe line as stance line: common practice, no source")};

}  // namespace

extern const RuleSet stance_line;
constexpr RuleSet stance_line = rules;

}  // namespace rangecheck::measure
