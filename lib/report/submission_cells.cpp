// SPDX-License-Identifier: MIT
#include <chrono>

#include "base/instant.hpp"
#include "report/cells.hpp"
#include "report/present.hpp"

namespace rangecheck::report {
namespace {

/// No spreadsheet knows a day before this year.
constexpr int first_year = 1900;

/// The day of an ISO 8601 date or date-time, as written, whatever zone that is in; the text itself
/// where the calendar has no such day.
Cell date_cell(std::string_view iso) {
  const auto midnight = parse_instant(iso.substr(0, 10));
  if (!midnight) return text_cell(iso);
  const std::chrono::year_month_day day{std::chrono::floor<std::chrono::days>(*midnight)};
  const Date date{static_cast<int>(day.year()),
                  static_cast<int>(static_cast<unsigned>(day.month())),
                  static_cast<int>(static_cast<unsigned>(day.day()))};
  return date.year >= first_year ? Cell{date} : text_cell(iso);
}

/// What to work on in place `rank`, or nothing.
Cell work_cell(const Summary& summary, std::size_t rank) {
  if (rank >= summary.work_on.size()) return {};
  return text_cell(summary.work_on[rank].id);
}

}  // namespace

std::vector<Column> submission_columns() {
  return {
      {"submission", "", "Id of the submission: its folder or the common part of its files.", 24},
      {"student", "", "Id of the student. Names are on the students' pages only.", 12},
      {"received", "", "The day that the submission gives, as written.", 12},
      {"club", "", "As the submission says.", 14},
      {"swing", "", "Kind of swing.", 8},
      {"profile", "", "What the submission was held against.", 26},
      {"status", "", "graded, or film again: too little was seen for a grade.", 12},
      {"grade", "%", "Weighted mean over what was seen.", 9},
      {"± (95 %)", "%", "Half of the 95 % interval of the grade.", 9},
      {"seen", "% of the weight", "How much of what is checked could be judged.", 11},
      {"positions found", "", "Positions of the swing that the films show.", 10},
      {"positions judged", "", "Positions that the profile has checks for.", 10},
      {"films", "", "How good the worse film is: good, fair, poor or not known.", 10},
      {"work on first", "", "The check that the student's page begins with.", 30},
      {"then", "", "The second one.", 30},
      {"after that", "", "The third one.", 30},
  };
}

Cells submission_row(const Summary& summary) {
  return {
      text_cell(summary.submission),
      text_cell(summary.student),
      date_cell(summary.received),
      text_cell(summary.club),
      text_cell(summary.swing),
      text_cell(summary.profile),
      text_cell(summary.percent ? "graded" : "film again"),
      summary.percent ? number_cell(*summary.percent, 0) : Cell{},
      summary.percent ? number_cell(coverage_factor_95 * summary.percent_uncertainty, 0) : Cell{},
      number_cell(100 * summary.seen_share, 0),
      number_cell(static_cast<double>(summary.positions.found), 0),
      number_cell(static_cast<double>(summary.positions.judged), 0),
      text_cell(grade::name_of(summary.films)),
      work_cell(summary, 0),
      work_cell(summary, 1),
      work_cell(summary, 2)};
}

std::vector<Column> set_aside_columns() {
  return {
      {"submission", "", "Id of the submission.", 24},
      {"reason", "", "The file, the place in it and what is wrong there.", 70},
      {"remedy", "", "What to do about it.", 60},
  };
}

Cells set_aside_row(const SetAside& set_aside) {
  Error without_remedy = set_aside.error;
  without_remedy.remedy.clear();
  return {text_cell(set_aside.submission), text_cell(to_string(without_remedy)),
          text_cell(set_aside.error.remedy)};
}

}  // namespace rangecheck::report
