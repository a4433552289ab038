// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cmath>

#include "report/cells.hpp"
#include "report/report.hpp"

namespace rangecheck::report {
namespace {

bool is_plain_number(std::string_view text) {
  double value = 0;
  const char* begin = text.data() + (text.front() == '+' ? 1 : 0);
  const char* end = text.data() + text.size();
  const auto [stopped, error] = std::from_chars(begin, end, value);
  return error == std::errc() && stopped == end && std::isfinite(value);
}

/// Whether a spreadsheet may run `text`: it does so with what begins like this, some of them after
/// spaces too, and some, where full-width forms are usual, with those (OWASP, "CSV Injection"; the
/// latter two from memory).
bool may_be_run(std::string_view text) {
  constexpr std::array<std::string_view, 11> starts = {"=",  "+",  "-",  "@",  "\t", "\r",
                                                       "\n", "＝", "＋", "－", "＠"};
  const auto word = text.substr(std::min(text.find_first_not_of(' '), text.size()));
  if (word.empty() || is_plain_number(word)) return false;
  for (const auto start : starts)
    if (word.starts_with(start)) return true;
  return false;
}

std::string text_of(const Cell& cell) {
  if (const auto* text = std::get_if<std::string>(&cell)) return *text;
  if (const auto* number = std::get_if<Number>(&cell)) return fmt::format("{:.6g}", number->value);
  if (const auto* date = std::get_if<Date>(&cell))
    return fmt::format("{:04}-{:02}-{:02}", date->year, date->month, date->day);
  return "";
}

std::string header_line(const std::vector<std::string>& names) {
  Cells cells;
  for (const auto& name : names) cells.push_back(name);
  return csv_line(cells);
}

}  // namespace

std::string csv_cell(std::string_view text) {
  std::string safe(text);
  // A leading ' makes a spreadsheet show the text instead of running it.
  if (may_be_run(safe)) safe.insert(safe.begin(), '\'');
  if (safe.find_first_of(",\"\r\n") == std::string::npos) return safe;
  std::string quoted = "\"";
  for (const char c : safe) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

std::string csv_line(const Cells& cells) {
  std::string line;
  for (const auto& cell : cells) {
    if (&cell != &cells.front()) line += ',';
    line += csv_cell(text_of(cell));
  }
  return line + "\r\n";
}

Result<Nothing> csv_long(const Entries& all, std::string_view length_unit, const Write& write) {
  std::vector<std::string> names;
  for (const auto& column : check_columns()) names.push_back(column.name);
  write(header_line(names));
  return all([&](const Entry& entry) {
    for (const auto& row : check_rows(entry, length_unit)) write(csv_line(row));
  });
}

Result<Nothing> csv_wide(const Entries& all, std::string_view length_unit, const Write& write) {
  const auto wide = wide_layout(all, length_unit);
  if (!wide) return wide.error();
  std::vector<std::string> names;
  for (const auto& column : wide->columns) names.push_back(titled(column));
  write(header_line(names));
  return all([&](const Entry& entry) { write(csv_line(wide_row(entry, *wide, length_unit))); });
}

}  // namespace rangecheck::report
