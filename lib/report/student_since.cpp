// SPDX-License-Identifier: MIT
// What changed since last time, in the page's words.
#include <algorithm>
#include <cmath>
#include <tuple>

#include "report/student_page.hpp"

namespace rangecheck::report {
namespace {

using history::Change;
using history::Course;
using history::Reading;
using history::Series;
using history::Toward;

/// More than this nobody keeps in mind.
constexpr std::size_t most_changes = 5;

/// A real change, with what it is told before others for: it was to be worked on, it matters to
/// what is wanted, it is sure.
struct Line {
  std::string text;
  bool was_task = false, matters = false;
  double sureness = 0;

  auto urgency() const { return std::tuple(was_task, matters, sureness); }
};

const grade::Check* check_of(const Page& page, const std::string& id) {
  for (const auto& result : page.graded.grade.results)
    if (result.check.id == id) return &result.check;
  return nullptr;
}

double sureness(const Change& change) {
  return std::abs(change.by_si) / change.least_detectable_si;
}

std::string meaning(const Page& page, const Change& change, const grade::Band& band) {
  if (!band.lower_si && !band.upper_si) return page.words.say("since.no-meaning");
  switch (change.toward) {
    case Toward::band:
      return page.words.say("since.toward");
    case Toward::away:
      return page.words.say("since.away");
    case Toward::neither:
      return page.words.say("since.within");
  }
  return "";
}

std::string value(const Page& page, double si, const Unit& unit) {
  return with_symbol(page.words, digits(page.words, shown(si, unit), unit), unit);
}

/// The change told with what makes it another than one since the last films against one band.
std::string qualified(const Page& page, std::string text, const Reading& before,
                      const Reading& after, const Unit& unit) {
  const Course& course = page.graded.course;
  if (before.band != after.band)
    text = page.words.say("since.then-wanted",
                          {{"change", text}, {"wanted", band_text(page.words, before.band, unit)}});
  if (before.submission + 2 == course.submissions.size()) return text;
  const std::string day = day_of(course.submissions[before.submission].record.received);
  if (day.empty()) return page.words.say("since.older-no-day", {{"change", text}});
  return page.words.say("since.older", {{"change", text}, {"day", day}});
}

std::string change_text(const Page& page, const grade::Check& check, const Series& series) {
  const Reading &before = series.readings[series.readings.size() - 2],
                &after = series.readings.back();
  const Unit& unit = shown_unit(check, page.length_unit);
  return qualified(
      page,
      page.words.say("since.change", {{"title", titled(page, check)},
                                      {"before", value(page, before.value_si, unit)},
                                      {"after", value(page, after.value_si, unit)},
                                      {"meaning", meaning(page, *series.since_last, after.band)}}),
      before, after, unit);
}

/// The real changes of checks, the most urgent first.
std::vector<std::string> changes_of_checks(const Page& page) {
  const Course& course = page.graded.course;
  const auto& tasks = course.submissions[course.submissions.size() - 2].record.work_on;
  std::vector<Line> lines;
  for (const auto& series : course.checks) {
    const auto* check = check_of(page, series.check.id);
    if (!check || !series.since_last || !series.since_last->is_real()) continue;
    lines.push_back({.text = change_text(page, *check, series),
                     .was_task = !tasks.empty() && tasks.front() == check->id,
                     .matters = series.since_last->toward != Toward::neither,
                     .sureness = sureness(*series.since_last)});
  }
  std::ranges::stable_sort(lines, std::ranges::greater(), &Line::urgency);
  std::vector<std::string> texts;
  for (auto& line : lines) texts.push_back(std::move(line.text));
  return texts;
}

std::vector<std::string> change_of_grade(const Page& page) {
  const auto change = history::comparable_grade_change(page.graded.course);
  if (!change || !change->is_real()) return {};
  const auto grades = history::comparable_grades(page.graded.course);
  const Reading &before = grades[grades.size() - 2], &after = grades.back();
  const Unit percent = *find_unit("%");
  return {
      qualified(page,
                page.words.say("since.grade", {{"before", value(page, before.value_si, percent)},
                                               {"after", value(page, after.value_si, percent)}}),
                before, after, percent)};
}

/// How many values were seen both times.
std::size_t compared(const Page& page) {
  const Course& course = page.graded.course;
  return static_cast<std::size_t>(std::ranges::count_if(
             course.checks, [](const Series& one) { return one.since_last.has_value(); })) +
         (history::comparable_grade_change(course) ? 1 : 0);
}

}  // namespace

SinceLast since_last(const Page& page) {
  const Course& course = page.graded.course;
  if (course.submissions.size() < 2) return {};
  const std::string day = day_of(course.submissions[course.submissions.size() - 2].record.received);
  const std::string since =
      day.empty() ? page.words.say("since.no-day") : page.words.say("since.day", {{"day", day}});
  const std::size_t count = compared(page);
  if (count == 0) return {page.words.say("since.nothing-common", {{"since", since}}), {}, ""};
  SinceLast out{.lead = "", .changes = change_of_grade(page), .more = ""};
  const auto checks = changes_of_checks(page);
  out.changes.insert(out.changes.end(), checks.begin(), checks.end());
  if (out.changes.empty()) {
    out.lead = page.words.say("since.unchanged", {{"since", since}});
    return out;
  }
  out.lead = page.words.say("since.changed", {{"since", since}});
  if (out.changes.size() > most_changes) {
    out.more = page.words.say(out.changes.size() - most_changes, "since.more") + " ";
    out.changes.resize(most_changes);
  }
  // Each is held to 95 %, whatever their number.
  out.more += page.words.say(count, "since.by-chance");
  return out;
}

}  // namespace rangecheck::report
