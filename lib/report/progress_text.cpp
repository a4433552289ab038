// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "report/present.hpp"
#include "report/progress.hpp"

namespace rangecheck::report {
namespace {

using history::Change;
using history::Course;
using history::Dated;
using history::Reading;
using history::Series;
using history::Toward;

/// The day it was received, or recorded where that is not known.
std::string known_day(const Dated& submission) {
  if (!submission.record.received.empty()) return day_of(submission.record.received);
  const std::chrono::year_month_day day{std::chrono::floor<std::chrono::days>(submission.recorded)};
  return fmt::format("{:04}-{:02}-{:02}", int(day.year()), unsigned(day.month()),
                     unsigned(day.day()));
}

const Unit& percent_unit() {
  static const Unit percent = *find_unit("%");
  return percent;
}

std::string named(const history::CheckRecord& check) {
  return titled_at(check.title, check.position);
}

std::string reading_text(const Reading& reading, const Unit& unit) {
  return with_interval(english(), reading.value_si, reading.standard_uncertainty_si, unit);
}

/// What the change means for the student.
std::string_view meaning(const Change& change) {
  switch (change.toward) {
    case Toward::band:
      return "nearer to what is wanted";
    case Toward::away:
      return "farther from what is wanted";
    case Toward::neither:
      return "within what is wanted";
  }
  return "";
}

const Reading& reading_before(const Series& series) {
  return series.readings[series.readings.size() - 2];
}

/// "16.3 ± 1.6 in, then 14.1 ± 1.5 in: nearer to what is wanted (14 to 15 in)".
std::string change_text(const Series& series, std::string_view length_unit) {
  const Unit& unit = shown_unit(series.check.dimension, series.check.unit, length_unit);
  return fmt::format("{}, then {}: {} ({})", reading_text(reading_before(series), unit),
                     reading_text(series.readings.back(), unit), meaning(*series.since_last),
                     band_text(english(), series.check.band, unit));
}

/// The same where the difference is less than the films can tell.
std::string no_change_text(const Series& series, std::string_view length_unit) {
  const Unit& unit = shown_unit(series.check.dimension, series.check.unit, length_unit);
  return fmt::format(
      "{}, then {}: a difference below {} does not show",
      reading_text(reading_before(series), unit), reading_text(series.readings.back(), unit),
      with_symbol(english(),
                  digits(english(), shown(series.since_last->least_detectable_si, unit), unit),
                  unit));
}

std::string grade_text(const Course& course, std::size_t submission) {
  const auto grade = std::ranges::find(course.grades, submission, &Reading::submission);
  return grade == course.grades.end() ? "no grade" : reading_text(*grade, percent_unit());
}

std::string title_of(const Course& course, const std::string& id) {
  const auto series =
      std::ranges::find_if(course.checks, [&](const Series& one) { return one.check.id == id; });
  return series == course.checks.end() ? id : named(series->check);
}

std::string submissions_table(const Course& course) {
  std::string text;
  for (std::size_t i = 0; i < course.submissions.size(); ++i) {
    const auto& record = course.submissions[i].record;
    text += fmt::format(
        "  {}  {}{}\n", known_day(course.submissions[i]), padded(grade_text(course, i), 14),
        printable(record.work_on.empty() ? "-" : title_of(course, record.work_on.front())));
  }
  return text;
}

std::string grade_change(const Course& course) {
  if (!course.grade_since_last) return "";
  const Change& change = *course.grade_since_last;
  const auto points = [](double si) { return fmt::format("{:.0f}", 100 * std::abs(si)); };
  if (!change.is_real())
    return paragraph(fmt::format("Grade: no change that shows (it would take {} points).",
                                 points(change.least_detectable_si)));
  return paragraph(fmt::format("Grade: {} by {} points.", change.by_si > 0 ? "up" : "down",
                               points(change.by_si)));
}

/// What had to be worked on after the submission before.
const Series* worked_on(const Course& course) {
  const auto& ids = course.submissions[course.submissions.size() - 2].record.work_on;
  if (ids.empty()) return nullptr;
  const auto series = std::ranges::find_if(
      course.checks, [&](const Series& one) { return one.check.id == ids.front(); });
  return series != course.checks.end() && series->since_last ? &*series : nullptr;
}

std::string changes_block(const Course& course, std::string_view length_unit) {
  std::string changed;
  std::size_t compared = 0;
  const Series* task = worked_on(course);
  for (const auto& series : course.checks) {
    if (!series.since_last) continue;
    ++compared;
    if (&series == task || !series.since_last->is_real()) continue;
    changed += paragraph(named(series.check) + ": " + change_text(series, length_unit), "  * ");
  }
  std::string text = "\n" + grade_change(course);
  if (task) {
    text += paragraph("Worked on: " + named(task->check) + ": " +
                      (task->since_last->is_real() ? change_text(*task, length_unit)
                                                   : no_change_text(*task, length_unit)));
  }
  if (compared == 0) return text + "Nothing was seen in both of the last two.\n";
  if (changed.empty())
    return text + paragraph(fmt::format("Of {} no other changed by more than the films can tell.",
                                        count_of(compared, "check")));
  // Each is held to 95 %, whatever their number.
  return text +
         paragraph(fmt::format("Of {} these changed too; one in twenty may show by chance:",
                               count_of(compared, "check"))) +
         changed;
}

}  // namespace

std::string progress_text(std::string_view student, std::span<const Course> courses,
                          std::string_view length_unit) {
  std::string text;
  for (const auto& course : courses) {
    if (!text.empty()) text += "\n";
    text += paragraph(fmt::format("{}, {}, {}: {}", student, course.club, course.swing,
                                  count_of(course.submissions.size(), "submission")));
    text += submissions_table(course);
    if (course.submissions.size() > 1) text += changes_block(course, length_unit);
  }
  return text;
}

}  // namespace rangecheck::report
