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
  return fmt::format("{:.0f} ± {:.0f} %", *grade.percent,
                     coverage_factor_95 * grade.percent_uncertainty);
}

Row cells(const Graded& graded) {
  std::vector<std::string> work_on;
  for (const std::size_t index : graded.grade.work_on)
    work_on.push_back(graded.grade.results[index].check.id);
  return {printable(graded.submission),
          printable(graded.student),
          printable(graded.club),
          printable(graded.swing),
          grade_cell(graded.grade),
          fmt::format("{:.0f} %", 100 * graded.grade.seen_share),
          work_on.empty() ? "-" : listed(work_on, "and")};
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
        {"submission", "student", "club", "swing", "grade", "seen", "work on first"}};
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
