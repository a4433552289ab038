// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <algorithm>
#include <sstream>

#include "base/text.hpp"
#include "example.hpp"
#include "report/present.hpp"
#include "said.hpp"

namespace rangecheck::report {
namespace {

std::size_t count(const std::string& text, const std::string& part) {
  std::size_t found = 0;
  for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++found;
  return found;
}

bool has(const std::string& text, const std::string& part) { return count(text, part) > 0; }

TEST_CASE("no line of the page is wider than 80 columns") {
  for (const auto& graded : {example_graded(), example_without_grade()}) {
    std::istringstream lines(student_text(graded));
    for (std::string line; std::getline(lines, line);) {
      CAPTURE(line);
      CHECK(columns(line) <= 80);
    }
  }
}

TEST_CASE("the page names the student, and who has no name by the id") {
  CHECK(has(student_text(example_graded()), "Ann Example: 7-iron, full, 2026-03-14\n"));
  Graded nameless = example_graded();
  nameless.name.clear();
  CHECK(has(student_text(nameless), "s-0417: 7-iron"));
}

TEST_CASE("the main item has why, aim, drill and caution") {
  const auto page = student_text(example_graded());
  CHECK(has(page, "Heel gap: 11.0 ± 1.0 in; wanted 14 to 15 in."));
  CHECK(has(page, "Why      A narrow base lets you sway."));
  CHECK(has(page, "behind your shoulder tilt too"));
  CHECK(has(page, "Aim      Heels as far apart as your hips."));
  CHECK(has(page, "Drill    Set a club between your heels."));
  CHECK(has(page, "Careful  Widen only as far as your hips like."));
  CHECK_FALSE(has(page, "when that has become a habit"));
}

TEST_CASE("a profile without sentences gets plain ones") {
  Graded graded = example_graded();
  graded.grade.work_on = {1, 0};
  const auto page = student_text(graded);
  CHECK(has(page, "Why      It is 21 ± 6° where at most 12° is wanted."));
  CHECK(count(page, "when that has become a habit") == 1);
}

TEST_CASE("lengths follow the coach's unit, the band too") {
  const auto page = student_text(example_graded(), "cm");
  CHECK(has(page, "27.9 ± 2.5 cm"));
  CHECK(has(page, "35.56 to 38.1 cm"));
  CHECK_FALSE(has(page, "14 to 15 in"));
}

TEST_CASE("what was not seen shows no value, and the same remedy is said once") {
  const auto page = student_text(example_graded());
  CHECK(has(page, "depth is not in one film: hip line and knee line"));
  CHECK(count(page, "Send a film from down the line as well.") == 1);
}

TEST_CASE("what was measured too widely shows its spread and never its value") {
  Graded graded = example_graded();
  graded.measured.front().not_seen =
      measure::NotSeen{as_written("known only to within 0.5 in"), as_written("Film the heels.")};
  auto& result = graded.grade.results.front();
  result.verdict = grade::Verdict::not_seen;
  result.remedy = as_written("Film the heels.");
  graded.grade.work_on.clear();
  const auto page = student_text(graded);
  CHECK(has(page, "not sharply enough: heel gap (± 1.0 in)"));
  CHECK_FALSE(has(page, "11.0"));
}

TEST_CASE("without a grade the page says so and still ends with the cautions") {
  const auto page = student_text(example_without_grade());
  CHECK(has(page, "No grade this time"));
  CHECK(has(page, "20 %"));
  CHECK(has(page, "Film again first"));
  CHECK(has(page, "This would show the most: Send a\nfilm from down the line as well."));
  CHECK(has(page, "Stop at once if anything hurts."));
  CHECK(has(page, "no medical advice"));
}

TEST_CASE("notes on films, facts and bands reach the page") {
  const auto page = student_text(example_graded());
  CHECK(has(page, "another person walked through"));
  CHECK(has(page, "does not fit the films well. (check it in the roster)"));
  CHECK(has(page,
            "  * stiff hips (a narrower stance is enough): heel gap 14 to 15 in instead of 15\n"
            "    to 16 in\n"));
  CHECK(has(page, "observed \"thumb\" is no check of this profile"));
}

TEST_CASE("a check left out for the body is told with its reason and not judged") {
  Graded graded = example_graded();
  leave_out(graded, 1, "shoulder operated in 2024");
  const auto page = student_text(graded);
  CHECK(has(page, "shoulder operated in 2024: left out: shoulder tilt"));
  CHECK_FALSE(has(page, "21 ±"));
}

TEST_CASE("text from people's files can't move the cursor or break the page") {
  Graded graded = example_graded();
  graded.name = "Ann\x1b[2J\r\nEvil";
  const auto page = student_text(graded);
  CHECK_FALSE(has(page, "\x1b"));
  CHECK_FALSE(has(page, "\r"));
}

TEST_CASE("a title that just fills its column does not touch the number after it") {
  Graded graded = example_graded();
  graded.grade.results[1].check.title = std::string(35, 'x');
  const auto page = student_text(graded);
  CHECK(has(page, "  " + std::string(35, 'x') + "\n" + std::string(37, ' ') + "21 ± 6°"));
}

TEST_CASE("words that are wanted go on in the next line where they would be too wide") {
  Graded graded = example_graded();
  graded.grade.results.back().check.accept = {"overlap", "interlock", "ten-finger"};
  CHECK(has(student_text(graded),
            "  Lead thumb                         trail-side      overlap, interlock or\n" +
                std::string(53, ' ') + "ten-finger      good\n"));
}

TEST_CASE("long titles keep the columns after them in line") {
  Graded graded = example_graded();
  graded.grade.results[1].check.title = "Shoulder tilt seen from where the ball goes, or nearly so";
  std::istringstream lines(student_text(graded));
  for (std::string line; std::getline(lines, line);) {
    CHECK(columns(line) <= 80);
    if (has(line, "21 ± 6°")) CHECK(columns(line.substr(0, line.find("21 ±"))) == 37);
  }
}

}  // namespace
}  // namespace rangecheck::report
