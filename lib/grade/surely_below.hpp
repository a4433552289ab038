// SPDX-License-Identifier: MIT
#pragma once

#include "grade/grade.hpp"

namespace rangecheck::grade {

/// The upper end of the grade's 95 % interval, in per cent; nothing without a grade.
std::optional<double> highest_95(const Grade& grade);

/// True where the whole 95 % interval of the grade lies below `percent`: one time in forty for a
/// grade that is truly just there. Without a grade false, since nothing is known then.
bool surely_below(const Grade& grade, double percent);

}  // namespace rangecheck::grade
