// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "report/present.hpp"
#include "report/report.hpp"

namespace rangecheck::report {
namespace {

using Row = std::vector<std::string>;

std::string grade_cell(const grade::Grade& grade) {
  if (!grade.percent) return "no grade";
  return percent_text(*grade.percent, grade.percent_uncertainty);
}

std::string found_cell(const grade::Grade& grade) {
  const auto count = positions_of(grade);
  return fmt::format("{}/{}", count.found, count.judged);
}

std::string films_cell(const Graded& graded) {
  const auto verdict = worse_film(graded);
  return verdict == grade::FilmVerdict::not_known ? "-" : std::string(grade::name_of(verdict));
}

/// "stance-width" at address, "p4 shoulder-turn" later: short, since positions' names are long.
std::string short_id(const grade::Check& check) {
  if (!check.position || check.position == Position::address) return check.id;
  return fmt::format("{} {}", alias_of(*check.position), check.rule);
}

/// The main item, and how many more the student's page has.
std::string work_cell(const grade::Grade& grade) {
  if (!grade.percent) return "film again";
  if (grade.work_on.empty()) return "-";
  const std::string main_item = short_id(grade.results[grade.work_on.front()].check);
  if (grade.work_on.size() == 1) return main_item;
  return fmt::format("{} +{}", main_item, grade.work_on.size() - 1);
}

Row cells(const Graded& graded) {
  return {printable(graded.submission), printable(graded.student),
          grade_cell(graded.grade),     fmt::format("{:.0f} %", 100 * graded.grade.seen_share),
          found_cell(graded.grade),     films_cell(graded),
          work_cell(graded.grade)};
}

std::string aligned(const std::vector<Row>& rows) {
  std::vector<std::size_t> widths(rows.front().size(), 0);
  for (const Row& row : rows)
    for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], columns(row[i]));
  std::string table;
  for (const Row& row : rows) {
    for (std::size_t i = 0; i + 1 < row.size(); ++i) table += padded(row[i], widths[i] + 2);
    table += row.back() + "\n";
  }
  return table;
}

}  // namespace

std::string coach_table(std::span<const Graded> graded, std::span<const SetAside> set_aside) {
  std::string table;
  if (!graded.empty()) {
    std::vector<Row> rows = {
        {"submission", "student", "grade", "seen", "found", "films", "work on first"}};
    for (const auto& one : graded) rows.push_back(cells(one));
    table += aligned(rows);
  }
  if (set_aside.empty()) return table;
  if (!table.empty()) table += "\n";
  table += "set aside\n";
  for (const auto& one : set_aside)
    table += "  " + printable(one.submission) + ": " + printable(to_string(one.error)) + "\n";
  return table;
}

}  // namespace rangecheck::report
