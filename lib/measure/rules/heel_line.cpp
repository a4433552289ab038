// SPDX-License-Identifier: MIT
#include "measure/body_line.hpp"

namespace rangecheck::measure {
namespace {

constexpr Rule rules[] = {body_line::to_target<Joint::heel>(
    "heel-line", "Heel line", Region::feet,
    "Blind to flare: read it beside the stance line, which is not.", "own definition")};

}  // namespace

extern const RuleSet heel_line;
constexpr RuleSet heel_line = rules;

}  // namespace rangecheck::measure
