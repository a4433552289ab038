// SPDX-License-Identifier: MIT
#include "report/json_parts.hpp"

namespace rangecheck::report {
namespace {

using history::Change;
using history::Course;
using history::Reading;

Json reading_entry(const Course& course, const Reading& reading, Dimension dimension) {
  Json entry = {{"submission", course.submissions[reading.submission].record.submission}};
  add_value(entry, reading.value_si, reading.standard_uncertainty_si, dimension);
  return entry;
}

Json change_entry(const Change& change, Json before, Json after, Dimension dimension) {
  constexpr std::string_view towards[] = {"band", "away", "neither"};
  const Unit unit = document_unit(dimension);
  return {{"before", std::move(before)},
          {"after", std::move(after)},
          {"by", number(change.by_si, unit)},
          {"standard_uncertainty", number(change.standard_uncertainty_si, unit)},
          {"least_detectable", number(change.least_detectable_si, unit)},
          {"real", change.is_real()},
          {"toward", towards[static_cast<std::size_t>(change.toward)]}};
}

Json grade_entry(const Course& course) {
  const auto change = history::comparable_grade_change(course);
  if (!change) return nullptr;
  const auto grades = history::comparable_grades(course);
  const auto reading = [&](const Reading& one) {
    return reading_entry(course, one, Dimension::ratio);
  };
  return change_entry(*change, reading(grades[grades.size() - 2]), reading(grades.back()),
                      Dimension::ratio);
}

Json check_entry(const Course& course, const history::Series& series) {
  const Dimension dimension = series.check.dimension;
  const Unit unit = document_unit(dimension);
  const auto reading = [&](const Reading& one) {
    Json entry = reading_entry(course, one, dimension);
    entry["band"] = {{"lower", number(one.band.lower_si, unit)},
                     {"upper", number(one.band.upper_si, unit)}};
    entry["verdict"] = grade::name_of(one.verdict);
    return entry;
  };
  const auto& readings = series.readings;
  Json entry = change_entry(*series.since_last, reading(readings[readings.size() - 2]),
                            reading(readings.back()), dimension);
  entry["check"] = series.check.id;
  return entry;
}

}  // namespace

Json since_entry(const Course& course) {
  if (course.submissions.size() < 2) return nullptr;
  Json checks = Json::array();
  for (const auto& series : course.checks)
    if (series.since_last) checks.push_back(check_entry(course, series));
  const auto& before = course.submissions[course.submissions.size() - 2].record;
  return {{"submission", before.submission},
          {"received", before.received},
          {"profile", before.profile},
          {"grade", grade_entry(course)},
          {"checks", std::move(checks)}};
}

}  // namespace rangecheck::report
