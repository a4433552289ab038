// SPDX-License-Identifier: MIT
#include "grade/surely_below.hpp"

#include "base/coverage.hpp"

namespace rangecheck::grade {

std::optional<double> highest_95(std::optional<double> percent, double percent_uncertainty) {
  if (!percent) return std::nullopt;
  return *percent + coverage_factor_95 * percent_uncertainty;
}

bool surely_below(std::optional<double> percent, double percent_uncertainty, double limit_percent) {
  const auto highest = highest_95(percent, percent_uncertainty);
  return highest && *highest < limit_percent;
}

}  // namespace rangecheck::grade
