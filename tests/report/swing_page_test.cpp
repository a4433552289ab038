// SPDX-License-Identifier: MIT
// The student's page where the films show more than the address.
#include <doctest/doctest.h>

#include <algorithm>
#include <sstream>

#include "example.hpp"
#include "report/present.hpp"
#include "report/student_page.hpp"
#include "said.hpp"

namespace rangecheck::report {
namespace {

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

/// The page from the heading `title` to the next heading, without either's empty line.
std::string block(const std::string& page, const std::string& title) {
  const auto start = page.find("\n" + title + "\n---") + 1;
  REQUIRE(start != 0);
  const auto end = page.find("\n\n", page.find("---\n", start) + 5);
  return page.substr(start, end + 1 - start);
}

TEST_CASE("no line of a swing's page is wider than 80 columns") {
  Graded widest = example_swing();
  // A verdict of every kind, and the longest name.
  widest.grade.results.back().verdict = grade::Verdict::outside_words;
  widest.grade.results.push_back(swing_result("chest-turn", "Chest turn", Dimension::angle,
                                              Position::trail_arm_parallel_through,
                                              grade::Verdict::unsure));
  widest.grade.positions.push_back({Position::trail_arm_parallel_through, 100, 5.1, 1});
  for (const auto& graded : {example_swing(), example_address_of_swing(), widest}) {
    std::istringstream lines(student_text(graded));
    for (std::string line; std::getline(lines, line);) {
      CAPTURE(line);
      CHECK(columns(line) <= 80);
    }
  }
}

TEST_CASE("the page speaks of the swing") {
  const auto page = student_text(example_swing());
  CHECK(has(page, "\nYour swing, held against: Middle iron, full swing, whole\n"));
  CHECK(has(page,
            "This rests on the 70 % of your swing that could be\njudged; another film of the "
            "same swing could give any grade from 63 to 79 %."));
}

TEST_CASE("what to work on says where in the swing, and where what it causes shows") {
  const auto page = student_text(example_swing());
  CHECK(has(page,
            "\n  At the top (p4): pelvis shift 5.0 ± 0.5 in; wanted 2 to 4 in.\n"
            "    (middle of the hips since address, positive toward the target)\n"
            "    Why      It is 5.0 ± 0.5 in where 2 to 4 in is wanted.\n"
            "             It may well be behind your chest turn, and pelvis shift (p7) too.\n"));
  CHECK(has(page, "\n  At address (p1): heel gap 11.0 ± 1.0 in; wanted 14 to 15 in.\n"));
  CHECK(
      has(page, "\n  Over the whole swing: backswing time 0.60 ± 0.05 s; wanted 0.7 to 0.9 s.\n"));
}

TEST_CASE("a line for each position, with those that were not found in their place") {
  CHECK(block(student_text(example_swing()), "The swing at a glance") ==
        "The swing at a glance\n"
        "---------------------\n"
        "                                                  too   too  can't   not\n"
        "                                grade       good  low  high   tell  seen\n"
        "p1  Address                     62 ± 8 %       0    1     1      0     2\n"
        "p2  Shaft parallel back         not found\n"
        "p3  Lead arm parallel back      -              1    0     0      1     1\n"
        "p4  Top                         48 ± 12 %      2    1     1      0     1\n"
        "p7  Impact                      55 ± 10 %      1    0     1      1     1\n"
        "p10 Finish                      100 ± 0 %      1    0     0      0     1\n"
        "    Timing and the rest         80 ± 6 %       1    1     0      0     0\n");
}

TEST_CASE("a number that a person wrote for a position that no film shows is counted") {
  Graded graded = example_swing();
  auto& written = graded.grade.results[4];
  written = swing_result("shaft-angle", "Shaft angle", Dimension::angle,
                         Position::shaft_parallel_back, grade::Verdict::high);
  written.note = as_written("noted by a person");
  const auto page = student_text(graded);
  CHECK(has(page, "p2  Shaft parallel back         not found      0    0     1      0     0\n"));
  CHECK(has(page,
            "Shaft parallel back (p2)\n"
            "  Shaft angle                        60 ± 5°         30 to 50°       too high\n"
            "    (noted by a person)\n"));
}

TEST_CASE("position by position what is outside has its numbers, the rest only names") {
  CHECK(block(student_text(example_swing()), "Position by position, from the ground up") ==
        "Position by position, from the ground up\n"
        "----------------------------------------\n"
        "                                     you             wanted\n"
        "Address (p1)\n"
        "  Heel gap                           11.0 ± 1.0 in   14 to 15 in     too low\n"
        "  Shoulder tilt                      21 ± 6°         at most 12°     too high\n"
        "Lead arm parallel back (p3)\n"
        "  good: pelvis shift\n"
        "  can't tell: chest turn\n"
        "Top (p4)\n"
        "  Pelvis shift                       5.0 ± 0.5 in    2 to 4 in       too high\n"
        "  Chest turn                         20 ± 5°         30 to 50°       too low\n"
        "  good: side bend and head travel\n"
        "Impact (p7)\n"
        "  Pelvis shift                       5.0 ± 0.5 in    2 to 4 in       too high\n"
        "  good: lead elbow\n"
        "  can't tell: chest turn\n"
        "Finish (p10)\n"
        "  good: chest turn\n"
        "Timing\n"
        "  Backswing time                     0.60 ± 0.05 s   0.7 to 0.9 s    too short\n"
        "Club and what was seen\n"
        "  good: lead thumb\n"
        "The true value is within the ± of what is shown 95 times in 100. \"can't tell\"\n"
        "means that the films leave too much doubt about the side of the edge you are on.\n"
        "The numbers behind what is only named here are with your coach.\n");
}

TEST_CASE("what was not seen is told once for all positions, those not found first") {
  CHECK(block(student_text(example_swing()), "What the films could not show") ==
        "What the films could not show\n"
        "-----------------------------\n"
        "  * the landmark files have no points of the club: shaft parallel back (p2) and\n"
        "    shaft parallel down (p6)\n"
        "    To see this: Film with the whole club in frame and add its points.\n"
        "  * depth is not in one film: hip turn (p3-p4, p7, p10)\n"
        "    To see this: Send a film from down the line as well.\n"
        "  * depth is not in one film: hip line and knee line (p1)\n"
        "    To see this: Lay a stick on the ground.\n");
}

TEST_CASE("in a swing a measure that is too wide is named without its spread") {
  Graded graded = example_swing();
  auto& result = graded.grade.results[8];
  result.verdict = grade::Verdict::not_seen;
  result.reason = as_written("known only to within 0.5 in");
  result.remedy = as_written("Film nearer.");
  graded.grade.work_on = {0};
  CHECK(has(student_text(graded), "  * not sharply enough: pelvis shift (p4)\n"));
}

TEST_CASE("checks left out for one reason share a line") {
  Graded graded = example_swing();
  for (const std::size_t index : {1, 8, 13}) leave_out(graded, index, "shoulder operated in 2024");
  graded.grade.work_on = {0};
  CHECK(has(student_text(graded),
            "  * shoulder operated in 2024: left out: shoulder tilt (p1); pelvis shift (p4,\n"
            "    p7)\n"));
}

TEST_CASE("a film of the address alone has the page of the set-up and one line on the rest") {
  const auto page = student_text(example_address_of_swing());
  CHECK(has(page,
            "Your set-up at address, held against: Middle iron, full swing\n"
            "The films show the address only. How to show the swing is further down.\n"));
  CHECK(block(page, "What the films could not show") ==
        "What the films could not show\n"
        "-----------------------------\n"
        "  * the film ends at address: shaft parallel back to finish (p2-p10)\n"
        "    To see this: Film from before the swing to the finish.\n"
        "  * depth is not in one film: hip line and knee line\n"
        "    To see this: Send a film from down the line as well.\n");
  // All else is the page that the same film gets from a profile of the address alone.
  const auto up_to_unseen = [](const std::string& text, const std::string& from) {
    const auto start = text.find(from);
    return text.substr(start, text.find("What the films could not show") - start);
  };
  CHECK(up_to_unseen(page, "\nGrade\n") ==
        up_to_unseen(student_text(example_graded()), "\nGrade\n"));
}

TEST_CASE("that the films end at address is said only where they do") {
  Graded graded = example_address_of_swing();
  const auto said = [&] { return address_only({graded, english(), "in"}); };
  CHECK(said() == "The films show the address only. How to show the swing is further down.");
  const std::string not_found =
      "This page is about your address only: no later position of the swing was found in the "
      "films. How to show the swing is further down.";
  SUBCASE("the film goes on") {
    graded.films.front().facts.after_address_s = 2;
    CHECK(said() == not_found);
    CHECK(student_html(graded).find(not_found) != std::string::npos);
  }
  SUBCASE("the film shows a swing, but no position that is judged") {
    graded.films.front().facts.shows_swing = true;
    CHECK(said() == not_found);
  }
  SUBCASE("one of two films goes on") {
    graded.films.push_back(graded.films.front());
    graded.films.back().facts.after_address_s = 2;
    CHECK(said() == not_found);
  }
  SUBCASE("no more is judged") {
    graded.grade.not_found.clear();
    CHECK(said().empty());
  }
}

TEST_CASE("a profile of the address alone says nothing of the swing") {
  const auto page = student_text(example_graded());
  CHECK_FALSE(has(page, "swing is further down"));
  CHECK_FALSE(has(page, "at a glance"));
  CHECK_FALSE(has(page, "(p1)"));
}

}  // namespace
}  // namespace rangecheck::report
