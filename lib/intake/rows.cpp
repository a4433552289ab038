// SPDX-License-Identifier: MIT
#include "intake/rows.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "intake/byte_order_mark.hpp"

namespace rangecheck::intake {

RowReader::RowReader(std::string_view text, std::string file, char separator)
    : text_(text), file_(std::move(file)), separator_(separator) {
  if (text_.starts_with(byte_order_mark)) text_.remove_prefix(byte_order_mark.size());
}

Error RowReader::error_at(int line, std::string what, std::string remedy) const {
  return {Fault::bad_value, std::move(what),
          Place{.file = file_, .line = line, .frame = {}, .key = ""}, std::move(remedy)};
}

Result<std::optional<Row>> RowReader::next() {
  while (at_ < text_.size()) {
    Row row{line_, {}};
    bool more = true;
    while (more) {
      auto cell = read_cell(more);
      if (!cell) return cell.error();
      row.cells.push_back(std::move(*cell));
    }
    const bool blank = std::all_of(row.cells.begin(), row.cells.end(),
                                   [](const auto& cell) { return trim(cell).empty(); });
    if (!blank) return std::optional(std::move(row));
  }
  return std::optional<Row>();
}

/// One cell and the sign after it; `more` says that this was a separator.
Result<std::string> RowReader::read_cell(bool& more) {
  std::string cell;
  const int first_line = line_;
  const bool is_quoted = at_ < text_.size() && text_[at_] == '"';
  if (is_quoted) {
    ++at_;
    while (true) {
      if (at_ >= text_.size()) {
        return error_at(first_line, "a quotation mark is opened and never closed");
      }
      const char c = text_[at_++];
      if (c == '\n') ++line_;
      const bool doubled = c == '"' && at_ < text_.size() && text_[at_] == '"';
      if (c == '"' && !doubled) break;
      if (doubled) ++at_;
      cell += c;
    }
  }
  const char ends[] = {separator_, '\n'};
  const auto end = std::min(text_.find_first_of({ends, 2}, at_), text_.size());
  const auto rest = text_.substr(at_, end - at_);
  if (is_quoted && !trim(rest).empty()) {
    return error_at(line_, "text follows a closing quotation mark",
                    "double the quotation marks inside a cell");
  }
  if (!is_quoted) cell = rest;
  more = end < text_.size() && text_[end] == separator_;
  if (end < text_.size() && text_[end] == '\n') ++line_;
  at_ = std::min(end + 1, text_.size());
  return cell;
}

}  // namespace rangecheck::intake
