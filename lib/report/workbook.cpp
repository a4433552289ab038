// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "report/cells.hpp"
#include "report/present.hpp"
#include "report/report.hpp"
#include "report/workbook_about.hpp"
#include "report/xlsx.hpp"

namespace rangecheck::report {
namespace {

using grade::FilmVerdict;
using grade::Verdict;

std::size_t place_of(const std::vector<Column>& columns, std::string_view name) {
  const auto found = std::find_if(columns.begin(), columns.end(),
                                  [&](const auto& column) { return column.name == name; });
  return static_cast<std::size_t>(found - columns.begin());
}

void tint_verdicts(Sheet& sheet, std::size_t column) {
  constexpr std::array<std::pair<Verdict, Tint>, 7> tints = {{
      {Verdict::inside, Tint::good},
      {Verdict::low, Tint::low},
      {Verdict::high, Tint::high},
      {Verdict::outside_words, Tint::other},
      {Verdict::unsure, Tint::doubtful},
      {Verdict::not_seen, Tint::missing},
      {Verdict::switched_off, Tint::missing},
  }};
  for (const auto& [verdict, tint] : tints) sheet.tint_word(column, grade::name_of(verdict), tint);
}

/// Sets off values by where they lie: below, above or in the band of their own row.
void tint_bands(Sheet& sheet, const std::vector<Column>& columns) {
  const auto cell = [&](std::string_view name) { return first_cell(place_of(columns, name)); };
  const auto value = cell("value"), low = cell("band_low"), high = cell("band_high");
  const auto below = fmt::format("AND(ISNUMBER({1}),{0}<{1})", value, low);
  const auto above = fmt::format("AND(ISNUMBER({1}),{0}>{1})", value, high);
  const auto column = place_of(columns, "value");
  const auto where_seen = [&](const std::string& formula) {
    return fmt::format("=AND(ISNUMBER({}),{})", value, formula);
  };
  sheet.tint_where(column, where_seen(below), Tint::low);
  sheet.tint_where(column, where_seen(above), Tint::high);
  sheet.tint_where(
      column, where_seen(fmt::format("COUNT({},{})>0,NOT({}),NOT({})", low, high, below, above)),
      Tint::good);
}

Sheet& add_submissions(Xlsx& book) {
  const auto columns = submission_columns();
  Sheet& sheet = book.add_sheet("Submissions", columns);
  sheet.tint_word(place_of(columns, "status"), "film again", Tint::doubtful);
  const auto films = place_of(columns, "films");
  sheet.tint_word(films, grade::name_of(FilmVerdict::good), Tint::good);
  sheet.tint_word(films, grade::name_of(FilmVerdict::fair), Tint::doubtful);
  sheet.tint_word(films, grade::name_of(FilmVerdict::poor), Tint::high);
  return sheet;
}

Sheet& add_checks(Xlsx& book) {
  const auto columns = check_columns();
  Sheet& sheet = book.add_sheet("Checks", columns);
  tint_bands(sheet, columns);
  tint_verdicts(sheet, place_of(columns, "verdict"));
  return sheet;
}

Sheet& add_side_by_side(Xlsx& book, const Wide& wide) {
  Sheet& sheet = book.add_sheet("Side by side", wide.columns);
  const std::size_t first_check = wide.columns.size() - 3 * wide.checks.size();
  for (std::size_t i = 0; i < wide.checks.size(); ++i)
    tint_verdicts(sheet, first_check + 3 * i + 2);
  return sheet;
}

Sheet& add_set_aside(Xlsx& book, std::span<const SetAside> set_aside) {
  Sheet& sheet = book.add_sheet("Set aside", set_aside_columns(), true);
  for (const auto& one : set_aside) sheet.write(set_aside_row(one));
  return sheet;
}

}  // namespace

Result<Nothing> write_workbook(const std::filesystem::path& file, const Entries& graded,
                               std::span<const SetAside> set_aside, std::string_view length_unit) {
  const auto wide = wide_layout(graded, length_unit);
  if (!wide) return wide.error();
  Xlsx book(file);
  Sheet& submissions = add_submissions(book);
  Sheet& checks = add_checks(book);
  Sheet& side_by_side = add_side_by_side(book, *wide);
  const auto read = graded([&](const Entry& entry) {
    submissions.write(submission_row(entry.summary));
    for (const auto& row : check_rows(entry, length_unit)) checks.write(row);
    side_by_side.write(wide_row(entry, *wide, length_unit));
  });
  if (!read) return read;
  const std::array<const Sheet*, 4> sheets = {&submissions, &checks, &side_by_side,
                                              &add_set_aside(book, set_aside)};
  Sheet& about = book.add_sheet("About", about_columns(), true);
  for (const auto& row : about_rows(sheets, length_unit)) about.write(row);
  return book.close();
}

}  // namespace rangecheck::report
