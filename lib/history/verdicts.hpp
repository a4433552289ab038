// SPDX-License-Identifier: MIT
// Every verdict, for who reads one by its name. Inside history only.
#pragma once

#include <array>

#include "grade/grade.hpp"

namespace rangecheck::history {

inline constexpr std::array all_verdicts = {
    grade::Verdict::inside,        grade::Verdict::low,    grade::Verdict::high,
    grade::Verdict::outside_words, grade::Verdict::unsure, grade::Verdict::not_seen,
    grade::Verdict::switched_off};

}  // namespace rangecheck::history
