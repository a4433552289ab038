// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

namespace rangecheck::grade {

/// The upper end of the 95 % interval of a grade, all in per cent; nothing without a grade.
std::optional<double> highest_95(std::optional<double> percent, double percent_uncertainty);

/// True where the whole 95 % interval of the grade lies below `limit_percent`: one time in forty
/// for a grade that is truly just there. Without a grade false, since nothing is known then.
bool surely_below(std::optional<double> percent, double percent_uncertainty, double limit_percent);

}  // namespace rangecheck::grade
