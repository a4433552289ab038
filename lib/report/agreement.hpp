// SPDX-License-Identifier: MIT
// Two gradings of the same submissions held against each other. Everybody appears by id.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "history/comparison.hpp"

namespace rangecheck::report {

/// What is compared, as the user calls it.
struct Compared {
  std::string first, second;
};

/// For a terminal, 80 columns: what could be compared, a line a check by position with bias, limits
/// of agreement, ICC and minimal detectable change, and what that means, in words. Every ± is half
/// of a 95 % interval.
std::string agreement_text(const Compared& names, const history::Comparison& both,
                           std::string_view length_unit = "in");

/// Everything, for programs, one document of its own form: angles in deg, lengths in m.
std::string agreement_json(const Compared& names, const history::Comparison& both,
                           std::optional<int> indent = 2);

/// RFC 4180, one row a check and one of the grade, header line first, CRLF; cells that a
/// spreadsheet would run are made safe.
std::string agreement_csv(const history::Comparison& both, std::string_view length_unit = "in");

}  // namespace rangecheck::report
