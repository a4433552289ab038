// SPDX-License-Identifier: MIT
#include "grade/surely_below.hpp"

#include "base/coverage.hpp"

namespace rangecheck::grade {

std::optional<double> highest_95(const Grade& grade) {
  if (!grade.percent) return std::nullopt;
  return *grade.percent + coverage_factor_95 * grade.percent_uncertainty;
}

bool surely_below(const Grade& grade, double percent) {
  const auto highest = highest_95(grade);
  return highest && *highest < percent;
}

}  // namespace rangecheck::grade
