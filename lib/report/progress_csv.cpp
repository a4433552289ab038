// SPDX-License-Identifier: MIT
#include "report/cells.hpp"
#include "report/present.hpp"
#include "report/progress.hpp"

namespace rangecheck::report {
namespace {

using history::Course;
using history::Reading;
using history::Series;

Cell number(double si, const Unit& unit) { return number_cell(shown(si, unit)); }

/// Against the reading before; empty for the first.
Cells change_cells(const Series& series, std::size_t reading, const Unit& unit) {
  if (reading == 0) return {{}, {}, {}};
  const auto change = history::change_between(series.readings[reading - 1],
                                              series.readings[reading], series.check.band);
  return {number(change.by_si, unit), number(change.least_detectable_si, unit),
          text_cell(change.is_real() ? "yes" : "no")};
}

std::string rows(std::string_view student, const Course& course, const Series& series,
                 std::string_view length_unit) {
  const Unit& unit = shown_unit(series.check.dimension, series.check.unit, length_unit);
  std::string text;
  for (std::size_t i = 0; i < series.readings.size(); ++i) {
    const Reading& reading = series.readings[i];
    const auto& record = course.submissions[reading.submission].record;
    const double half_width_si = coverage_factor_95 * reading.standard_uncertainty_si;
    Cells cells = {text_cell(student),
                   text_cell(course.club),
                   text_cell(course.swing),
                   text_cell(record.submission),
                   text_cell(record.received),
                   text_cell(series.check.id),
                   text_cell(series.check.title),
                   text_cell(unit.symbol),
                   number(reading.value_si, unit),
                   number(reading.standard_uncertainty_si, unit),
                   number(reading.value_si - half_width_si, unit),
                   number(reading.value_si + half_width_si, unit),
                   text_cell(grade::name_of(reading.verdict))};
    for (auto& cell : change_cells(series, i, unit)) cells.push_back(std::move(cell));
    text += csv_line(cells);
  }
  return text;
}

}  // namespace

std::string progress_csv(std::string_view student, std::span<const Course> courses,
                         std::string_view length_unit) {
  Cells names;
  for (const auto* name :
       {"student", "club", "swing", "submission", "received", "check", "title", "unit", "value",
        "u", "low_95", "high_95", "verdict", "change", "least_detectable", "real"})
    names.push_back(text_cell(name));
  std::string text = csv_line(names);
  for (const auto& course : courses)
    for (const auto& series : course.checks) text += rows(student, course, series, length_unit);
  return text;
}

}  // namespace rangecheck::report
