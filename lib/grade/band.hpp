// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/quantity.hpp"
#include "base/result.hpp"

namespace rangecheck::grade {

/// Accepted values. An absent limit is open on that side; at least one is set for a numeric check.
struct Band {
  std::optional<double> lower_si;
  std::optional<double> upper_si;
  bool operator==(const Band&) const = default;
};

/// A band as a coach wrote it.
struct Target {
  Band band;
  std::string unit;  ///< symbol it was written in
};

/// Reads `14..15 in`, `at-least 3 deg`, `at-most 5 deg` or `around 30 deg ± 5 deg` (`+-` is the
/// same as `±`; a unit written once counts for both numbers). Lower must be less than upper. The
/// error says what was read and what is understood; the caller adds the place.
Result<Target> parse_target(std::string_view text, Dimension wanted);

/// "14..15 in", "at least 3 deg", "at most 5 deg": for notes and tables, four significant digits.
std::string to_string(const Band& band, Dimension dimension, std::string_view unit);

/// How far `value_si` lies outside the band, 0 inside it.
double distance_beyond(double value_si, const Band& band);

}  // namespace rangecheck::grade
