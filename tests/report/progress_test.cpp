// SPDX-License-Identifier: MIT
#include "report/progress.hpp"

#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

namespace rangecheck::report {
namespace {

using history::CheckRecord;
using history::Dated;

constexpr double inch = 0.0254;

CheckRecord length(const std::string& id, const std::string& title, std::optional<double> value_in,
                   double u_in) {
  return {.id = id,
          .title = title,
          .position = Position::address,
          .dimension = Dimension::length,
          .unit = "in",
          .verdict = grade::Verdict::high,
          .value_si = value_in ? std::optional(*value_in * inch) : std::nullopt,
          .standard_uncertainty_si = u_in * inch,
          .band = {.lower_si = 14 * inch, .upper_si = 15 * inch}};
}

Dated submission(const std::string& id, const std::string& received, double percent,
                 std::vector<CheckRecord> checks) {
  Dated one;
  one.record = {.submission = id,
                .student = "s-7",
                .received = received,
                .club = "7-iron",
                .swing = "full",
                .profile = "p",
                .version = "0",
                .percent = percent,
                .percent_uncertainty = 4,
                .work_on = {"heel-gap"},
                .checks = std::move(checks)};
  // 2026-05-01T12:00:00Z
  one.recorded = std::chrono::sys_seconds(std::chrono::seconds(1777636800));
  return one;
}

std::vector<history::Course> example() {
  const std::vector<Dated> all = {
      submission("a", "2026-03-14T18:22:00+02:00", 60,
                 {length("heel-gap", "Heel gap", 18.0, 0.5), length("toe-gap", "Toe gap", 17, 0.5),
                  length("knee-gap", "Knee gap", 14.5, 0.5)}),
      submission("b", "", 80,
                 {length("heel-gap", "Heel gap", 15.5, 0.5), length("toe-gap", "Toe gap", 19, 0.5),
                  length("knee-gap", "Knee gap", 14.8, 0.5)})};
  return history::courses_of(all);
}

TEST_CASE("progress: one page, with what changed and what was worked on") {
  CHECK(progress_text("s-7", example()) ==
        "s-7, 7-iron, full: 2 submissions\n"
        "  2026-03-14  60 ± 8 %      Heel gap (p1)\n"
        "  2026-05-01  80 ± 8 %      Heel gap (p1)\n"
        "\n"
        "Grade: up by 20 points.\n"
        "Worked on: Heel gap (p1): 18.0 ± 1.0 in, then 15.5 ± 1.0 in: nearer to what is\n"
        "wanted (14 to 15 in)\n"
        "Of 3 checks these changed too; one in twenty may show by chance:\n"
        "  * Toe gap (p1): 17.0 ± 1.0 in, then 19.0 ± 1.0 in: farther from what is wanted\n"
        "    (14 to 15 in)\n");
}

TEST_CASE("progress: a difference that the films can't tell is not called one") {
  const std::vector<Dated> all = {
      submission("a", "2026-03-14", 60, {length("heel-gap", "Heel gap", 16.0, 0.5)}),
      submission("b", "2026-03-15", 61, {length("heel-gap", "Heel gap", 15.0, 0.5)})};
  const auto text = progress_text("s-7", history::courses_of(all), "cm");
  CHECK(text.find("Grade: no change that shows (it would take 11 points).\n") != std::string::npos);
  // 1.96 √2 × 0.5 in = 1.39 in = 3.5 cm
  CHECK(text.find("Worked on: Heel gap (p1): 40.6 ± 2.5 cm, then 38.1 ± 2.5 cm: a difference "
                  "below\n3.5 cm does not show\n") != std::string::npos);
  CHECK(text.find("Of 1 check no other changed by more than the films can tell.\n") !=
        std::string::npos);
}

TEST_CASE("progress: a single submission has nothing to be compared with") {
  const std::vector<Dated> one = {submission("a", "2026-03-14", 60, {})};
  CHECK(progress_text("s-7", history::courses_of(one)) ==
        "s-7, 7-iron, full: 1 submission\n"
        "  2026-03-14  60 ± 8 %      heel-gap\n");
}

TEST_CASE("progress: as a document, in metres") {
  const auto document = nlohmann::json::parse(progress_json("s-7", example()));
  CHECK(document["format"] == "rangecheck-progress");
  CHECK(document["student"] == "s-7");
  const auto& course = document["courses"][0];
  CHECK(course["grade"]["readings"][1]["value"].get<double>() == doctest::Approx(0.8));
  CHECK(course["grade"]["since_last"]["real"] == true);
  const auto& heel_gap = course["checks"][0];
  CHECK(heel_gap["unit"] == "m");
  CHECK(heel_gap["readings"][0]["value"].get<double>() == doctest::Approx(18 * inch));
  CHECK(heel_gap["since_last"]["by"].get<double>() == doctest::Approx(-2.5 * inch));
  CHECK(heel_gap["since_last"]["toward"] == "band");
  CHECK(heel_gap["since_first"].is_null());
  CHECK(course["checks"][2]["since_last"]["real"] == false);
}

TEST_CASE("progress: as a table, which no spreadsheet runs") {
  auto courses = example();
  for (auto& course : courses) course.submissions[0].record.submission = "=cmd|' /C calc'!A0";
  const auto text = progress_csv("s-7", courses);
  CHECK(text.starts_with(
      "student,club,swing,submission,received,check,title,unit,value,u,low_95,high_95,verdict,"
      "change,least_detectable,real\r\n"
      "s-7,7-iron,full,'=cmd|' /C calc'!A0,2026-03-14T18:22:00+02:00,heel-gap,Heel gap,in,18,0.5,"
      "17.02,18.98,high,,,\r\n"
      "s-7,7-iron,full,b,,heel-gap,Heel gap,in,15.5,0.5,14.52,16.48,high,-2.5,1.3859,yes\r\n"));
}

}  // namespace
}  // namespace rangecheck::report
