// SPDX-License-Identifier: MIT
#include "history/progress.hpp"

#include <algorithm>
#include <cmath>

#include "base/coverage.hpp"

namespace rangecheck::history {
namespace {

Toward toward(double before_si, double after_si, const grade::Band& band) {
  if (!band.lower_si && !band.upper_si) return Toward::neither;
  const double before = grade::distance_beyond(before_si, band),
               after = grade::distance_beyond(after_si, band);
  if (after == before) return Toward::neither;
  return after < before ? Toward::band : Toward::away;
}

/// More is better, up to the whole.
constexpr grade::Band whole_grade{.lower_si = 1, .upper_si = std::nullopt};

const CheckRecord* find(const Record& record, const std::string& id) {
  const auto found = std::ranges::find(record.checks, id, &CheckRecord::id);
  return found == record.checks.end() ? nullptr : &*found;
}

/// From the reading at `against` to the last, if that is of the last of all submissions.
std::optional<Change> last_change(std::span<const Reading> readings, std::size_t against,
                                  const Course& course, const grade::Band& band) {
  if (readings.back().submission + 1 != course.submissions.size()) return std::nullopt;
  return change_between(readings[against], readings.back(), band);
}

Series series_of(const Course& course, const std::string& id) {
  Series out;
  for (std::size_t i = 0; i < course.submissions.size(); ++i) {
    const CheckRecord* check = find(course.submissions[i].record, id);
    if (!check) continue;
    out.check = *check;
    if (check->value_si)
      out.readings.push_back(
          {i, *check->value_si, check->standard_uncertainty_si, check->verdict, check->band});
  }
  const std::size_t count = out.readings.size();
  if (count > 1) out.since_last = last_change(out.readings, count - 2, course, out.check.band);
  if (count > 2) out.since_first = last_change(out.readings, 0, course, out.check.band);
  return out;
}

/// Every check of the course: those of the last submission first, then what only earlier ones had.
std::vector<std::string> check_ids(const Course& course) {
  std::vector<std::string> ids;
  for (auto each = course.submissions.rbegin(); each != course.submissions.rend(); ++each)
    for (const auto& check : each->record.checks)
      if (std::ranges::find(ids, check.id) == ids.end()) ids.push_back(check.id);
  return ids;
}

void fill(Course& course) {
  for (std::size_t i = 0; i < course.submissions.size(); ++i) {
    const Record& record = course.submissions[i].record;
    if (record.percent)
      course.grades.push_back(
          {i, *record.percent / 100, record.percent_uncertainty / 100, grade::Verdict::unsure, {}});
  }
  if (const std::size_t count = course.grades.size(); count > 1)
    course.grade_since_last = last_change(course.grades, count - 2, course, whole_grade);
  for (const auto& id : check_ids(course)) {
    auto series = series_of(course, id);
    if (!series.readings.empty()) course.checks.push_back(std::move(series));
  }
}

/// Of the checks that either submission showed, the share that both did.
double share_in_both(const Course& course, std::size_t one, std::size_t other) {
  std::size_t either = 0, both = 0;
  for (const auto& series : course.checks) {
    const auto shown = [&](std::size_t submission) {
      return std::ranges::find(series.readings, submission, &Reading::submission) !=
             series.readings.end();
    };
    either += shown(one) || shown(other);
    both += shown(one) && shown(other);
  }
  return either == 0 ? 1 : static_cast<double>(both) / static_cast<double>(either);
}

/// Less than this, and two grades are of different things, however alike their uncertainties: our
/// own choice, no source.
constexpr double least_share_in_both = 0.75;

}  // namespace

bool Change::is_real() const { return std::abs(by_si) > least_detectable_si; }

Change change_between(const Reading& before, const Reading& after, const grade::Band& band) {
  const double u_si = std::hypot(before.standard_uncertainty_si, after.standard_uncertainty_si);
  return {.by_si = after.value_si - before.value_si,
          .standard_uncertainty_si = u_si,
          .least_detectable_si = coverage_factor_95 * u_si,
          .toward = toward(before.value_si, after.value_si, band)};
}

std::vector<Course> courses_of(std::span<const Dated> submissions) {
  std::vector<Course> courses;
  for (const auto& each : submissions) {
    const auto same = std::ranges::find_if(courses, [&](const Course& course) {
      return course.club == each.record.club && course.swing == each.record.swing;
    });
    if (same == courses.end()) {
      Course& course = courses.emplace_back();
      course.club = each.record.club;
      course.swing = each.record.swing;
      course.submissions.push_back(each);
      continue;
    }
    same->submissions.push_back(each);
    // The last to get a submission goes to the end.
    std::rotate(same, same + 1, courses.end());
  }
  std::reverse(courses.begin(), courses.end());
  for (auto& course : courses) fill(course);
  return courses;
}

std::vector<Reading> comparable_grades(const Course& course) {
  std::vector<Reading> out = course.grades;
  const auto& all = course.submissions;
  if (out.empty() || out.back().submission + 1 != all.size()) return {};
  const std::size_t last = all.size() - 1;
  std::erase_if(out, [&](const Reading& grade) {
    return all[grade.submission].record.profile != all[last].record.profile ||
           share_in_both(course, grade.submission, last) < least_share_in_both;
  });
  return out;
}

std::optional<Change> comparable_grade_change(const Course& course) {
  const auto grades = comparable_grades(course);
  if (grades.size() < 2) return std::nullopt;
  return change_between(grades[grades.size() - 2], grades.back(), whole_grade);
}

Course course_of(std::vector<Dated> earlier, Dated last) {
  earlier.push_back(std::move(last));
  Course course = courses_of(earlier).front();
  for (auto& each : course.submissions) each.record.checks.clear();
  return course;
}

}  // namespace rangecheck::history
