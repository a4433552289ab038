// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "report/present.hpp"
#include "report/report.hpp"

namespace rangecheck::report {
namespace {

using Row = std::vector<std::string>;

std::string grade_cell(const Summary& summary) {
  if (!summary.percent) return "no grade";
  return percent_text(*summary.percent, summary.percent_uncertainty);
}

std::string films_cell(grade::FilmVerdict verdict) {
  return verdict == grade::FilmVerdict::not_known ? "-" : std::string(grade::name_of(verdict));
}

/// "stance-width" at address, "p4 shoulder-turn" later: short, since positions' names are long.
std::string short_id(const NamedCheck& check) {
  if (!check.position || check.position == Position::address) return check.id;
  return fmt::format("{} {}", alias_of(*check.position), check.rule);
}

/// The main item, and how many more the student's page has.
std::string work_cell(const Summary& summary) {
  if (!summary.percent) return "film again";
  if (summary.work_on.empty()) return "-";
  const std::string main_item = short_id(summary.work_on.front());
  if (summary.work_on.size() == 1) return main_item;
  return fmt::format("{} +{}", main_item, summary.work_on.size() - 1);
}

Row cells(const Summary& summary) {
  return {printable(summary.submission),
          printable(summary.student),
          grade_cell(summary),
          fmt::format("{:.0f} %", 100 * summary.seen_share),
          fmt::format("{}/{}", summary.positions.found, summary.positions.judged),
          films_cell(summary.films),
          work_cell(summary)};
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

void add_reasons(std::string& table, std::string_view heading, std::span<const SetAside> all) {
  if (all.empty()) return;
  table += fmt::format("{}{}\n", table.empty() ? "" : "\n", heading);
  for (const auto& one : all)
    table += "  " + printable(one.submission) + ": " + printable(to_string(one.error)) + "\n";
}

}  // namespace

std::string coach_table(std::span<const Summary> graded, std::span<const SetAside> set_aside,
                        std::span<const SetAside> waiting) {
  std::string table;
  if (!graded.empty()) {
    std::vector<Row> rows = {
        {"submission", "student", "grade", "seen", "found", "films", "work on first"}};
    for (const auto& one : graded) rows.push_back(cells(one));
    table += aligned(rows);
  }
  add_reasons(table, "set aside", set_aside);
  add_reasons(table, "waiting, since they may not have arrived whole", waiting);
  return table;
}

}  // namespace rangecheck::report
