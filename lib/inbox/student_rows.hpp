// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <set>
#include <string>
#include <string_view>

namespace rangecheck::inbox {

/// A table of which a student's rows have been taken out; all else as it was, byte for byte.
struct CutTable {
  std::string rest;
  std::size_t removed = 0;         ///< rows
  std::set<std::string> students;  ///< of all rows, the removed ones included
};

/// Takes the rows of `student` out of a CSV file by RFC 4180 whose header has a column `student`;
/// nothing where it is no such table, or a damaged one.
std::optional<CutTable> without_rows_of(std::string_view student, std::string_view table);

}  // namespace rangecheck::inbox
