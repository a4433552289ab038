// SPDX-License-Identifier: MIT
#include "measure/travel.hpp"

namespace rangecheck::measure {
namespace {

// Ears, not the nose: it swings round when the head only turns, and both views show an ear.
constexpr std::string_view source = "middle of the ears, own definition";
constexpr std::string_view limit =
    "The middle of the ears: a head that only turns keeps it in place, one that tilts does not. "
    "Estimators guess the hidden ear.";

constexpr Rule rules[] = {
    travel::rule<Joint::ear, 0>("head-sway", "Head sway", Region::head,
                                "since address: 0 in place, positive toward the target", limit,
                                source),
    travel::rule<Joint::ear, 1>("head-lift", "Head lift", Region::head,
                                "since address: 0 in place, positive higher", limit, source),
    travel::rule<Joint::ear, 2>("head-to-ball", "Head toward the ball", Region::head,
                                "since address: 0 in place, positive toward the ball", limit,
                                source),
};

}  // namespace

extern const RuleSet head_travel;
constexpr RuleSet head_travel = rules;

}  // namespace rangecheck::measure
