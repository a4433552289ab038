// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace rangecheck::intake {

struct Row {
  int line = 1;  ///< on which it starts
  std::vector<std::string> cells;
};

/// Splits CSV by RFC 4180, a row at a time; lines may end in CRLF or LF, and a byte-order mark in
/// front is left out. `text` has to outlive it.
class RowReader {
 public:
  /// `file` is what errors call it.
  RowReader(std::string_view text, std::string file, char separator = ',');

  /// The next row that holds anything; nothing after the last. Errors (Fault::bad_value, with the
  /// line): a quotation mark that is never closed, text after a closing one.
  Result<std::optional<Row>> next();

 private:
  Result<std::string> read_cell(bool& more);
  Error error_at(int line, std::string what, std::string remedy = "") const;

  std::string_view text_;
  std::string file_;
  char separator_;
  std::size_t at_ = 0;
  int line_ = 1;
};

}  // namespace rangecheck::intake
