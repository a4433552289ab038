// SPDX-License-Identifier: MIT
#include "report/json_parts.hpp"
#include "report/progress.hpp"

namespace rangecheck::report {
namespace {

using history::Change;
using history::Course;

constexpr int progress_version = 1;

/// The grade is a share of 1.
Json reading_entry(const history::Reading& reading, const Unit& unit) {
  return {{"submission", reading.submission},
          {"value", number(reading.value_si, unit)},
          {"standard_uncertainty", number(reading.standard_uncertainty_si, unit)}};
}

Json change_entry(const std::optional<Change>& change, const Unit& unit) {
  if (!change) return nullptr;
  constexpr std::string_view towards[] = {"band", "away", "neither"};
  return {{"by", number(change->by_si, unit)},
          {"standard_uncertainty", number(change->standard_uncertainty_si, unit)},
          {"least_detectable", number(change->least_detectable_si, unit)},
          {"real", change->is_real()},
          {"toward", towards[static_cast<std::size_t>(change->toward)]}};
}

Json submission_entry(const history::Dated& submission) {
  const auto& record = submission.record;
  return {{"submission", record.submission},   {"received", record.received},
          {"profile", record.profile},         {"version", record.version},
          {"percent", number(record.percent)}, {"work_on", record.work_on}};
}

Json check_entry(const history::Series& series) {
  const auto& check = series.check;
  const Unit unit = document_unit(check.dimension);
  Json readings = Json::array();
  for (const auto& reading : series.readings) {
    readings.push_back(reading_entry(reading, unit));
    readings.back()["verdict"] = grade::name_of(reading.verdict);
  }
  return {{"check", check.id},
          {"title", check.title},
          {"unit", unit.symbol.empty() ? "1" : unit.symbol},
          {"band",
           {{"lower", number(check.band.lower_si, unit)},
            {"upper", number(check.band.upper_si, unit)}}},
          {"readings", std::move(readings)},
          {"since_last", change_entry(series.since_last, unit)},
          {"since_first", change_entry(series.since_first, unit)}};
}

Json course_entry(const Course& course) {
  const Unit share = document_unit(Dimension::ratio);
  return {{"club", course.club},
          {"swing", course.swing},
          {"submissions", list_of(course.submissions, submission_entry)},
          {"grade",
           {{"readings",
             list_of(course.grades, [&](const auto& one) { return reading_entry(one, share); })},
            {"since_last", change_entry(course.grade_since_last, share)}}},
          {"checks", list_of(course.checks, check_entry)}};
}

}  // namespace

std::string progress_json(std::string_view student, std::span<const Course> courses,
                          std::optional<int> indent) {
  const Json document = {{"format", "rangecheck-progress"},
                         {"version", progress_version},
                         {"student", student},
                         {"courses", list_of(courses, course_entry)}};
  return written(document, indent);
}

}  // namespace rangecheck::report
