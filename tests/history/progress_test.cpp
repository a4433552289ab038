// SPDX-License-Identifier: MIT
#include "history/progress.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "records.hpp"

namespace rangecheck::history {
namespace {

std::vector<Dated> in_order(std::vector<Record> records) {
  std::vector<Dated> out;
  for (auto& one : records) out.push_back({std::move(one), at(0)});
  return out;
}

TEST_CASE("progress: the least detectable change, checked against published tables") {
  // Weir 2005, doi:10.1519/15184.1: MD = SEM × 1.96 × √2. With an SEM of 10 that is 27.7 (from
  // memory of its worked example's form; the number follows from the formula).
  const Change equal = change_between({0, 100, 10, {}}, {1, 120, 10, {}}, {});
  CHECK(equal.least_detectable_si == doctest::Approx(10 * 1.96 * std::sqrt(2.0)).epsilon(1e-4));
  CHECK_FALSE(equal.is_real());
  CHECK(change_between({0, 100, 10, {}}, {1, 128, 10, {}}, {}).is_real());
  CHECK(change_between({0, 128, 10, {}}, {1, 100, 10, {}}, {}).is_real());
  // A Pythagorean pair: √(3² + 4²) = 5.
  const Change unequal = change_between({0, 0, 3, {}}, {1, 0, 4, {}}, {});
  CHECK(unequal.standard_uncertainty_si == doctest::Approx(5));
}

TEST_CASE("progress: nearer to the band or farther from it") {
  const grade::Band band{.lower_si = 10, .upper_si = 20};
  const auto toward = [&](double before, double after) {
    return change_between({0, before, 0.1, {}}, {1, after, 0.1, {}}, band).toward;
  };
  CHECK(toward(30, 25) == Toward::band);
  CHECK(toward(30, 15) == Toward::band);
  CHECK(toward(5, 2) == Toward::away);
  CHECK(toward(12, 18) == Toward::neither);
  // From one side to the other, as far off as before.
  CHECK(toward(5, 25) == Toward::neither);
  CHECK(toward(15, 22) == Toward::away);
}

TEST_CASE("progress: submissions with one club and swing are one course, the latest first") {
  auto driver = record("d", "2026-01-02", {check("heel-gap", 0.5, 0.01)});
  driver.club = "driver";
  const auto courses =
      courses_of(in_order({record("a", "2026-01-01", {check("heel-gap", 0.3, 0.01)}), driver,
                           record("b", "2026-01-03", {check("heel-gap", 0.31, 0.01)})}));
  REQUIRE(courses.size() == 2);
  CHECK(courses[0].club == "7-iron");
  CHECK(courses[0].submissions.size() == 2);
  CHECK(courses[1].club == "driver");
  REQUIRE(courses[0].checks.size() == 1);
  CHECK(courses[0].checks[0].since_last->by_si == doctest::Approx(0.01));
  CHECK_FALSE(courses[1].checks[0].since_last);
}

TEST_CASE("progress: what was not seen is no reading, and a change needs the last submission") {
  const auto seen = [](double value) { return check("heel-gap", value, 0.01); };
  const auto not_seen = check("heel-gap", std::nullopt, 0);
  const auto gap = courses_of(in_order(
      {record("a", "", {seen(0.30)}), record("b", "", {not_seen}), record("c", "", {seen(0.35)})}));
  const auto& over_gap = gap[0].checks[0];
  REQUIRE(over_gap.readings.size() == 2);
  CHECK(over_gap.readings[1].submission == 2);
  CHECK(over_gap.since_last->by_si == doctest::Approx(0.05));
  CHECK_FALSE(over_gap.since_first);

  const auto lost = courses_of(in_order(
      {record("a", "", {seen(0.30)}), record("b", "", {seen(0.35)}), record("c", "", {not_seen})}));
  CHECK(lost[0].checks[0].readings.size() == 2);
  CHECK_FALSE(lost[0].checks[0].since_last);

  const auto three =
      courses_of(in_order({record("a", "", {seen(0.30)}), record("b", "", {seen(0.35)}),
                           record("c", "", {seen(0.34)})}));
  CHECK(three[0].checks[0].since_last->by_si == doctest::Approx(-0.01));
  CHECK(three[0].checks[0].since_first->by_si == doctest::Approx(0.04));
}

TEST_CASE("progress: the grade goes up or down like everything else") {
  auto better = record("b", "", {});
  better.percent = 90;
  better.percent_uncertainty = 3;
  auto none = record("c", "", {});
  none.percent.reset();
  const auto courses = courses_of(in_order({record("a", "", {}), better}));
  REQUIRE(courses[0].grade_since_last);
  CHECK(courses[0].grade_since_last->by_si == doctest::Approx(0.20));
  CHECK(courses[0].grade_since_last->least_detectable_si == doctest::Approx(1.959964 * 0.05));
  CHECK(courses[0].grade_since_last->is_real());
  CHECK(courses[0].grade_since_last->toward == Toward::band);
  CHECK_FALSE(courses_of(in_order({better, none}))[0].grade_since_last);
}

TEST_CASE("records: a value that a report does not show is not kept") {
  grade::CheckResult result;
  result.value_si = 0.4;
  result.standard_uncertainty_si = 0.3;
  result.verdict = grade::Verdict::not_seen;
  CHECK_FALSE(record_of(result).value_si);
  CHECK(record_of(result).standard_uncertainty_si == 0);
  result.verdict = grade::Verdict::switched_off;
  CHECK_FALSE(record_of(result).value_si);
  result.verdict = grade::Verdict::unsure;
  CHECK(record_of(result).value_si == 0.4);
}

TEST_CASE("progress: the course of one submission has what may be compared with it") {
  Record driver = record("d", "2026-03-02", {check("heel-gap", 0.5, 0.01)});
  driver.club = "driver";
  std::vector<Dated> earlier{
      {record("a", "2026-03-01", {check("heel-gap", 0.5, 0.01, {.lower_si = 0.6, .upper_si = {}})}),
       at(0)},
      {driver, at(0)}};
  const Course course =
      course_of(earlier, {record("b", "2026-03-03", {check("heel-gap", 0.35, 0.01)}), at(0)});
  CHECK(course.club == "7-iron");
  REQUIRE(course.submissions.size() == 2);
  CHECK(course.submissions.back().record.submission == "b");
  CHECK(course.submissions.back().record.checks.empty());
  REQUIRE(course.checks.size() == 1);
  REQUIRE(course.checks.front().readings.size() == 2);
  CHECK(course.checks.front().readings[0].band == grade::Band{.lower_si = 0.6, .upper_si = {}});
  CHECK(course.checks.front().readings[1].band == grade::Band{.lower_si = 0.30, .upper_si = 0.40});
}

}  // namespace
}  // namespace rangecheck::history
