// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>

#include "base/read_file.hpp"
#include "base/text.hpp"
#include "base/words.hpp"
#include "intake/facts.hpp"
#include "intake/rows.hpp"
#include "intake/submission.hpp"

namespace rangecheck::intake {
namespace {

constexpr std::array<std::string_view, 8> columns = {"id",   "name",  "handedness", "stature",
                                                     "shoe", "style", "limits",     "language"};
constexpr std::size_t largest_roster = std::size_t{8} << 20;

Error error_at(const std::string& file, int line, std::string_view column, std::string what,
               std::string remedy = "") {
  return {Fault::bad_profile, std::move(what),
          Place{.file = file, .line = line, .frame = {}, .key = std::string(column)},
          std::move(remedy)};
}

/// All rows that hold anything.
Result<std::vector<Row>> read_rows(std::string_view text, const std::string& file) {
  std::vector<Row> rows;
  RowReader reader(text, file);
  while (true) {
    auto row = reader.next();
    if (!row) {
      row.error().fault = Fault::bad_profile;
      return row.error();
    }
    if (!*row) return rows;
    rows.push_back(std::move(**row));
  }
}

/// "en or de"
std::string listed_languages() {
  std::string text;
  for (const auto language : shipped_languages()) {
    if (!text.empty()) text += " or ";
    text += language;
  }
  return text;
}

/// Column number → index into `columns`.
Result<std::vector<std::size_t>> read_header(const Row& header, const std::string& file) {
  std::vector<std::size_t> order;
  for (const auto& cell : header.cells) {
    const std::string name = kebab(cell);
    const auto found = std::find(columns.begin(), columns.end(), name);
    if (found == columns.end()) {
      std::string remedy =
          "the columns are id, name, handedness, stature, shoe, style, limits, language";
      const std::string near = nearest(name, columns);
      if (!near.empty()) remedy = "did you mean " + near + "?";
      if (cell.find(';') != std::string::npos) remedy = "separate the columns by commas";
      return error_at(file, header.line, "", "there is no column " + rangecheck::quoted(cell),
                      remedy);
    }
    const auto index = static_cast<std::size_t>(found - columns.begin());
    if (std::find(order.begin(), order.end(), index) != order.end()) {
      return error_at(file, header.line, name, "this column stands there twice");
    }
    order.push_back(index);
  }
  if (std::find(order.begin(), order.end(), std::size_t{0}) == order.end()) {
    return error_at(file, header.line, "id", "the header has no column id",
                    "name the column with the students' ids id");
  }
  return order;
}

/// The first error of the row in `error`, if any; empty cells leave the golfer as it is.
Result<Golfer> golfer_of(const std::array<std::string, columns.size()>& cells) {
  Golfer golfer;
  const auto& [id, name, handedness, stature, shoe, style, limits, language] = cells;
  const auto at = [](Error error, std::string_view column) {
    error.where.key = column;
    return error;
  };
  golfer.id = id;
  if (const auto why = why_unsafe(id)) {
    return at({Fault::bad_profile, rangecheck::quoted(id) + " can't be an id: it " + *why, {}, ""},
              "id");
  }
  golfer.name = name;
  golfer.style = style;
  golfer.limits = limits_from(limits);
  if (!language.empty()) {
    const auto known = shipped_languages();
    if (std::find(known.begin(), known.end(), language) == known.end())
      return Error{Fault::bad_profile,
                   "there are no pages in " + rangecheck::quoted(language),
                   {.file = {}, .line = {}, .frame = {}, .key = "language"},
                   "write " + listed_languages() + ", or leave it empty"};
    golfer.language = language;
  }
  if (!handedness.empty()) {
    const auto read = handedness_from(handedness);
    if (!read) return at(read.error(), "handedness");
    golfer.handedness = *read;
  }
  if (!stature.empty()) {
    const auto read = stature_from(stature);
    if (!read) return at(read.error(), "stature");
    golfer.stature = *read;
  }
  if (!shoe.empty()) {
    const auto read = shoe_from(shoe);
    if (!read) return at(read.error(), "shoe");
    golfer.foot = *read;
  }
  return golfer;
}

/// The cells of a row in the order of `columns`, trimmed, line breaks inside cells made spaces.
Result<std::array<std::string, columns.size()>> arrange(const Row& row,
                                                        const std::vector<std::size_t>& order,
                                                        const std::string& file) {
  std::array<std::string, columns.size()> cells;
  for (std::size_t i = 0; i < row.cells.size(); ++i) {
    std::string cell(trim(row.cells[i]));
    std::replace(cell.begin(), cell.end(), '\n', ' ');
    cell.erase(std::remove(cell.begin(), cell.end(), '\r'), cell.end());
    if (i >= order.size()) {
      if (cell.empty()) continue;
      return error_at(file, row.line, "", "has more cells than the header has columns",
                      "put cells with commas into quotation marks");
    }
    const auto column = columns[order[i]];
    if (printable(cell) != cell) {
      return error_at(file, row.line, column,
                      rangecheck::quoted(cell) + " has characters that aren't text",
                      "export the roster as CSV in UTF-8");
    }
    cells[order[i]] = std::move(cell);
  }
  return cells;
}

}  // namespace

Result<Roster> read_roster(const std::filesystem::path& file) {
  const std::string name = printable(file.filename().string());
  auto text = read_file(file, name, largest_roster);
  if (!text) {
    text.error().fault = Fault::bad_profile;
    return text.error();
  }
  const auto rows = read_rows(*text, name);
  if (!rows) return rows.error();
  if (rows->empty()) return error_at(name, 1, "", "is empty", "start with a line of column names");
  const auto order = read_header(rows->front(), name);
  if (!order) return order.error();
  Roster roster;
  for (auto row = rows->begin() + 1; row != rows->end(); ++row) {
    const auto cells = arrange(*row, *order, name);
    if (!cells) return cells.error();
    auto golfer = golfer_of(*cells);
    if (!golfer) {
      return error_at(name, row->line, golfer.error().where.key, golfer.error().what,
                      golfer.error().remedy);
    }
    const std::string id = golfer->id;
    if (!roster.emplace(id, std::move(*golfer)).second) {
      return error_at(name, row->line, "id", rangecheck::quoted(id) + " is in the roster twice");
    }
  }
  return roster;
}

}  // namespace rangecheck::intake
