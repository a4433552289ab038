// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <vector>

#include "report/present.hpp"
#include "report/progress.hpp"
#include "report/report.hpp"

namespace rangecheck::report {
namespace {

using history::Course;
using history::Reading;
using history::Series;
using Cells = std::vector<std::string>;

std::string row(const Cells& cells) {
  std::vector<std::string> safe;
  for (const auto& cell : cells) safe.push_back(csv_cell(cell));
  return fmt::format("{}\r\n", fmt::join(safe, ","));
}

std::string number(double si, const Unit& unit) { return fmt::format("{:.6g}", shown(si, unit)); }

/// Against the reading before; empty for the first.
Cells change_cells(const Series& series, std::size_t reading, const Unit& unit) {
  if (reading == 0) return {"", "", ""};
  const auto change = history::change_between(series.readings[reading - 1],
                                              series.readings[reading], series.check.band);
  return {number(change.by_si, unit), number(change.least_detectable_si, unit),
          change.is_real() ? "yes" : "no"};
}

std::string rows(std::string_view student, const Course& course, const Series& series,
                 std::string_view length_unit) {
  const Unit& unit = shown_unit(series.check.dimension, series.check.unit, length_unit);
  std::string text;
  for (std::size_t i = 0; i < series.readings.size(); ++i) {
    const Reading& reading = series.readings[i];
    const auto& record = course.submissions[reading.submission].record;
    const double half_width_si = coverage_factor_95 * reading.standard_uncertainty_si;
    Cells cells = {std::string(student),
                   course.club,
                   course.swing,
                   record.submission,
                   record.received,
                   series.check.id,
                   series.check.title,
                   std::string(unit.symbol),
                   number(reading.value_si, unit),
                   number(reading.standard_uncertainty_si, unit),
                   number(reading.value_si - half_width_si, unit),
                   number(reading.value_si + half_width_si, unit),
                   std::string(grade::name_of(reading.verdict))};
    for (auto& cell : change_cells(series, i, unit)) cells.push_back(std::move(cell));
    text += row(cells);
  }
  return text;
}

}  // namespace

std::string progress_csv(std::string_view student, std::span<const Course> courses,
                         std::string_view length_unit) {
  std::string text =
      row({"student", "club", "swing", "submission", "received", "check", "title", "unit", "value",
           "u", "low_95", "high_95", "verdict", "change", "least_detectable", "real"});
  for (const auto& course : courses)
    for (const auto& series : course.checks) text += rows(student, course, series, length_unit);
  return text;
}

}  // namespace rangecheck::report
