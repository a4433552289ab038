// SPDX-License-Identifier: MIT
#include "measure/body_line.hpp"

namespace rangecheck::measure {
namespace {

constexpr Rule rules[] = {
    body_line::to_stance<Joint::hip>(
        "hip-line-to-stance", "Hip line against the stance line", Region::hips,
        "The hip joints are a hand's breadth inside the hips: of all lines the least sure.",
        "hip joint to hip joint, own definition"),
    body_line::to_target<Joint::hip>(
        "hip-line-to-target", "Hip line", Region::hips,
        "A camera that is not square adds its own turn; the line against the stance does not.",
        "hip joint to hip joint, own definition", body_line::going_through),
};

}  // namespace

extern const RuleSet hip_line;
constexpr RuleSet hip_line = rules;

}  // namespace rangecheck::measure
