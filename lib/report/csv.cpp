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

std::string line_of(const std::vector<std::string>& texts) {
  std::string line;
  for (const auto& text : texts) {
    if (&text != &texts.front()) line += ',';
    line += csv_cell(text);
  }
  return line + "\r\n";
}

std::string line_of(const Cells& cells) {
  std::vector<std::string> texts;
  for (const auto& cell : cells) texts.push_back(text_of(cell));
  return line_of(texts);
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

std::string csv_long_header() {
  std::vector<std::string> names;
  for (const auto& column : check_columns()) names.push_back(column.name);
  return line_of(names);
}

std::string csv_long_rows(const Graded& graded, std::string_view length_unit) {
  std::string rows;
  for (const auto& row : check_rows(graded, length_unit)) rows += line_of(row);
  return rows;
}

std::string csv_wide(std::span<const Graded> all, std::string_view length_unit) {
  const Wide wide = wide_layout(all, length_unit);
  std::vector<std::string> names;
  for (const auto& column : wide.columns) names.push_back(titled(column));
  std::string table = line_of(names);
  for (const auto& graded : all) table += line_of(wide_row(graded, wide, length_unit));
  return table;
}

}  // namespace rangecheck::report
