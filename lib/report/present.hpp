// SPDX-License-Identifier: MIT
// What the kinds of output share: how numbers, bands and running text look. Not for other rooms.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/quantity.hpp"
#include "grade/grade.hpp"

namespace rangecheck::report {

/// Half-width of a 95 % interval of a normal distribution, in standard uncertainties.
inline constexpr double coverage_factor_95 = 1.959964;

/// The unit a check is shown in: lengths as `length_unit` says, a ratio in % only where its band
/// was written so.
const Unit& shown_unit(const grade::Check& check, std::string_view length_unit);

/// `si` counted in `unit`.
double shown(double si, const Unit& unit);

/// `value`, already in `unit`, with the digits that mean something: whole degrees and per cents,
/// tenths of an inch or centimetre, hundredths of a ratio.
std::string digits(double value, const Unit& unit);

/// "21 ± 7 deg", the ± being half of the 95 % interval.
std::string with_interval(double si, double standard_uncertainty_si, const Unit& unit);

/// "14 to 15 in", "at least 3 deg", or for an observed check "trail-side or centre".
std::string band_text(const grade::Check& check, const Unit& unit);

/// "2 checks", "1 check".
std::string count_of(std::size_t count, std::string_view noun);

/// "a", "a and b", "a, b and c".
std::string listed(const std::vector<std::string>& items, std::string_view last_joint = "and");

/// `text` as lines of at most `width` columns, each ended; the first begins with `first`, the
/// others with as many spaces as `first` has columns. Control characters are made visible.
std::string paragraph(std::string_view text, std::string_view first = "", std::size_t width = 80);

/// Columns that `utf8` takes, counting one a code point.
std::size_t columns(std::string_view utf8);

/// `utf8` padded with spaces to at least `width` columns.
std::string padded(std::string_view utf8, std::size_t width);

/// The region a check belongs to, or "club and what was seen" for readings and observations.
std::string_view region_of(const grade::Check& check);

/// The results that carry `verdict`, in their order.
std::vector<const grade::CheckResult*> results_with(const grade::Grade& grade,
                                                    grade::Verdict verdict);

}  // namespace rangecheck::report
