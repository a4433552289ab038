// SPDX-License-Identifier: MIT
#include "inbox/student_rows.hpp"

#include <algorithm>
#include <vector>

#include "base/text.hpp"
#include "intake/rows.hpp"

namespace rangecheck::inbox {
namespace {

/// The rows with their line's ends, also those inside quotation marks; nothing where one is never
/// closed.
std::optional<std::vector<std::string_view>> rows_of(std::string_view table) {
  std::vector<std::string_view> rows;
  bool quoted = false;
  std::size_t begin = 0;
  for (std::size_t at = 0; at < table.size(); ++at) {
    if (table[at] == '"') quoted = !quoted;
    if (table[at] != '\n' || quoted) continue;
    rows.push_back(table.substr(begin, at + 1 - begin));
    begin = at + 1;
  }
  if (quoted) return std::nullopt;
  if (begin < table.size()) rows.push_back(table.substr(begin));
  return rows;
}

/// None where the row can't be read.
std::vector<std::string> cells_of(std::string_view row) {
  auto read = intake::RowReader(row, "").next();
  if (!read || !*read) return {};
  for (auto& cell : (*read)->cells) cell = trim(cell);
  return (*read)->cells;
}

}  // namespace

std::optional<CutTable> without_rows_of(std::string_view student, std::string_view table) {
  const auto rows = rows_of(table);
  if (!rows || rows->empty()) return std::nullopt;
  const auto header = cells_of(rows->front());
  const auto column =
      static_cast<std::size_t>(std::ranges::find(header, "student") - header.begin());
  if (column == header.size()) return std::nullopt;
  CutTable cut{std::string(rows->front()), 0, {}};
  for (auto row = rows->begin() + 1; row != rows->end(); ++row) {
    const auto cells = cells_of(*row);
    if (cells.size() != header.size()) return std::nullopt;
    cut.students.insert(cells[column]);
    if (cells[column] == student)
      ++cut.removed;
    else
      cut.rest += *row;
  }
  return cut;
}

}  // namespace rangecheck::inbox
