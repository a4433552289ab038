// SPDX-License-Identifier: MIT
// What pages and documents say about earlier submissions.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <regex>

#include "close.hpp"
#include "course_example.hpp"
#include "report/student_html.hpp"

namespace rangecheck::report {
namespace {

using Lines = std::vector<std::string>;

SinceLast since(const Graded& graded, const Words& words = english()) {
  return since_last({graded, words, "in"});
}

bool has(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

/// One earlier submission, changed by `change`.
Graded after_one(const std::function<void(history::Record&)>& change,
                 const std::string& received = "2026-03-07") {
  const Graded graded = example_graded();
  return after(graded, {earlier_record(graded, "s-0417-7-iron-2", received, change)});
}

TEST_CASE("since last time: what changed for real, by how much and which way, with the day") {
  const auto told = since(example_with_course());
  CHECK(told.lead == "Since your films of 2026-03-07, this has changed:");
  CHECK(told.changes ==
        Lines{"Grade: 45 % → 62 %", "Heel gap: 8.5 in → 11.0 in, toward what is wanted"});
  CHECK(told.more == "3 values could be compared; about one in twenty seems to change by chance.");
  const auto page = student_text(example_with_course());
  CHECK(has(page,
            "\nSince last time\n---------------\n"
            "Since your films of 2026-03-07, this has changed:\n"
            "  * Grade: 45 % → 62 %\n"
            "  * Heel gap: 8.5 in → 11.0 in, toward what is wanted\n"));
}

TEST_CASE("since last time: nothing without an earlier one, a sentence without a change") {
  CHECK(since(example_graded()).lead.empty());
  CHECK_FALSE(has(student_text(example_graded()), "Since last time"));
  CHECK_FALSE(has(student_html(example_graded()), "Since last time"));
  const Graded same = after_one({});
  CHECK(since(same).lead ==
        "Since your films of 2026-03-07: no change larger than the films can show.");
  CHECK(since(same).changes.empty());
  CHECK(since(same).more.empty());
  // 1.96 √(0.5² + 0.5²) in = 1.39 in: below it, and above it.
  for (const double before_in : {12.3, 12.5}) {
    const auto told = since(after_one([&](history::Record& record) {
      check_in(record, "heel-gap").value_si = before_in * 0.0254;
    }));
    CHECK(told.changes == (before_in < 12.39
                               ? Lines{}
                               : Lines{"Heel gap: 12.5 in → 11.0 in, away from what is wanted"}));
  }
  const auto unseen = since(after_one([](history::Record& record) {
    record.percent.reset();
    for (auto& check : record.checks) check.value_si.reset();
  }));
  CHECK(unseen.lead == "Since your films of 2026-03-07: nothing that was seen could be compared.");
}

TEST_CASE("since last time: a day that is not known is not made up") {
  const auto told = since(after_one(
      [](history::Record& record) { check_in(record, "heel-gap").value_si = 8.5 * 0.0254; }, ""));
  CHECK(told.lead == "Since your last films, this has changed:");
  CHECK(has(student_html(after_one({}, "")), "day not known: 62 ± 8 %"));
}

TEST_CASE("since last time: a band that was moved and an older reading are told") {
  const Graded graded = example_graded();
  const auto change = [](history::Record& record) {
    check_in(record, "trail-tilt").value_si = 40 * rad_per_deg;
    check_in(record, "trail-tilt").band.upper_si = 15 * rad_per_deg;
  };
  CHECK(since(after(graded, {earlier_record(graded, "a", "2026-03-07", change)})).changes ==
        Lines{"Shoulder tilt: 40° → 21°, toward what is wanted (then at most 15° was wanted)"});
  const auto unseen = [](history::Record& record) {
    check_in(record, "trail-tilt").value_si.reset();
  };
  CHECK(
      since(after(graded, {earlier_record(graded, "a", "2026-02-28", change),
                           earlier_record(graded, "b", "2026-03-07", unseen)}))
          .changes ==
      Lines{"Shoulder tilt: 40° → 21°, toward what is wanted (then at most 15° was wanted) (since "
            "your films of 2026-02-28)"});
}

TEST_CASE(
    "since last time: grades of another profile, or largely of other checks, are not compared") {
  const auto lower = [](history::Record& record) { record.percent = 20; };
  CHECK(since(after_one(lower)).changes == Lines{"Grade: 20 % → 62 %"});
  CHECK(since(after_one([&](history::Record& record) {
          lower(record);
          record.profile = "another";
        })).changes.empty());
  Graded swing = example_swing();
  CHECK(since(after(swing, {earlier_record(swing, "a", "2026-03-07", lower)})).changes ==
        Lines{"Grade: 20 % → 71 %"});
  CHECK(since(after(swing, {earlier_record(swing, "a", "2026-03-07",
                                           [&](history::Record& record) {
                                             lower(record);
                                             for (auto& check : record.checks)
                                               if (check.position != Position::address)
                                                 check.value_si.reset();
                                           })}))
            .changes.empty());
}

TEST_CASE("since last time: five at most, what was to be worked on before the surest") {
  const Graded swing = example_swing();
  const Graded graded =
      after(swing, {earlier_record(swing, "a", "2026-03-07", [](history::Record& record) {
              double more = 5;
              for (auto& check : record.checks)
                if (check.value_si) *check.value_si += ++more * check.standard_uncertainty_si;
              record.work_on = {"heel-gap"};
            })});
  const auto told = since(graded);
  REQUIRE(told.changes.size() == 5);
  // All 13 values moved by 6 to 18 uncertainties; the grade, which is the 14th, stayed.
  CHECK(told.changes[0].starts_with("Heel gap (p1): 14.0 in → 11.0 in, away"));
  // Then what comes nearer or goes away, the surest of it first, and only then what stays inside.
  CHECK(told.changes[1].starts_with("Backswing time: "));
  CHECK(told.more.starts_with("8 more values have changed. 14 values could be compared;"));
}

TEST_CASE("since last time: German says the same") {
  const auto told = since(example_with_course(), shipped_words("de"));
  CHECK(told.lead == "Seit Deinen Filmen vom 2026-03-07 hat sich das geändert:");
  CHECK(told.changes.back() == "Heel gap: 8,5 Zoll → 11,0 Zoll, näher an dem, was gewünscht ist");
}

/// The pictures of courses in a page.
std::vector<std::string> pictures(const std::string& page) {
  std::vector<std::string> found;
  const std::regex one("<svg class=\"course-picture\".*?</svg>");
  for (std::sregex_iterator each(page.begin(), page.end(), one), end; each != end; ++each)
    found.push_back(each->str());
  return found;
}

TEST_CASE(
    "course pictures: what to work on, what was to be worked on and the grade, in words too") {
  const auto drawn = pictures(student_html(example_with_course()));
  REQUIRE(drawn.size() == 3);
  CHECK(has(drawn[0], "role=\"img\" aria-labelledby=\"course-1 course-1-text\""));
  CHECK(has(drawn[0], "<title id=\"course-1\">Heel gap from film to film</title>"));
  CHECK(has(drawn[0],
            "<desc id=\"course-1-text\">2026-02-28: 7.0 ± 1.0 in, too low; 2026-03-07: 8.5 ± 1.0 "
            "in, too low; 2026-03-14: 11.0 ± 1.0 in, too low. Wanted now: 14 to 15 in.</desc>"));
  CHECK(has(drawn[1], "Shoulder tilt from film to film"));
  CHECK(has(drawn[2], "2026-02-28: 40 ± 8 %; 2026-03-07: 45 ± 8 %; 2026-03-14: 62 ± 8 %."));
  CHECK(pictures(student_html(example_graded())).empty());
}

TEST_CASE("course pictures: marks, intervals and bands are where the numbers are") {
  const auto drawn = pictures(student_html(example_with_course()));
  REQUIRE(drawn.size() == 3);
  // From 7 - 0.98 in to the band's 15, with an eighth more on each side, over 120 units.
  const double half = 1.959964 * 0.5, low = 7 - half, more = (15 - low) / 8;
  const auto y = [&](double inches) {
    return 142 - 120 * (inches - low + more) / (15 - low + 2 * more);
  };
  const double step = 280.0 / 3;
  const std::regex interval(
      "<line x1=\"([0-9.]+)\" y1=\"([0-9.]+)\" x2=\"\\1\" y2=\"([0-9.]+)\" class=\"interval\"");
  std::sregex_iterator each(drawn[0].begin(), drawn[0].end(), interval);
  for (const double inches : {7.0, 8.5, 11.0}) {
    REQUIRE(each != std::sregex_iterator());
    CHECK_CLOSE(std::stod((*each)[2]), y(inches + half), 0.06);
    CHECK_CLOSE(std::stod((*each)[3]), y(inches - half), 0.06);
    ++each;
  }
  std::smatch zone;
  REQUIRE(std::regex_search(
      drawn[0], zone,
      std::regex("<rect x=\"36.0\" y=\"([0-9.]+)\" width=\"([0-9.]+)\" height=\"([0-9.]+)\"")));
  CHECK_CLOSE(std::stod(zone[1]), y(15), 0.06);
  CHECK_CLOSE(std::stod(zone[2]), step, 0.06);
  CHECK_CLOSE(std::stod(zone[3]), y(14) - y(15), 0.06);
  // The band of the tilt was moved in between: three pieces, the middle one of its own height, and
  // all of them open to the bottom.
  std::vector<std::string> heights;
  const std::regex rect("<rect [^>]*height=\"([0-9.]+)\"");
  for (std::sregex_iterator one(drawn[1].begin(), drawn[1].end(), rect), end; one != end; ++one)
    heights.push_back((*one)[1]);
  REQUIRE(heights.size() == 3);
  CHECK(heights[0] == heights[2]);
  CHECK(std::stod(heights[1]) > std::stod(heights[0]));
}

TEST_CASE("course pictures: eight at most, the first and the last day where there are many") {
  const Graded graded = example_graded();
  std::vector<history::Record> records;
  for (int day = 10; day < 20; ++day)
    records.push_back(
        earlier_record(graded, "a" + std::to_string(day), "2026-01-" + std::to_string(day)));
  const auto drawn = pictures(student_html(after(graded, records)));
  REQUIRE(drawn.size() == 2);
  CHECK_FALSE(has(drawn[0], "2026-01-12"));
  CHECK(has(drawn[0], "text-anchor=\"start\">2026-01-13</text>"));
  CHECK(has(drawn[0], "text-anchor=\"end\">2026-03-14</text>"));
  CHECK_FALSE(has(drawn[0], ">2026-01-14</text>"));
}

TEST_CASE("json: what changed has both readings, each with its own band and verdict") {
  const auto document = nlohmann::json::parse(result_json(example_with_course()));
  const auto& told = document.at("since_last");
  CHECK(told.at("submission") == "s-0417-7-iron-2");
  CHECK(told.at("received") == "2026-03-07T09:00:00Z");
  CHECK_CLOSE(told.at("grade").at("by").get<double>(), 0.17, 1e-12);
  CHECK(told.at("grade").at("real") == true);
  CHECK(told.at("grade").at("toward") == "band");
  REQUIRE(told.at("checks").size() == 2);
  const auto& gap = told.at("checks")[0];
  CHECK(gap.at("check") == "heel-gap");
  CHECK_CLOSE(gap.at("before").at("value").get<double>(), 8.5 * 0.0254, 1e-12);
  CHECK_CLOSE(gap.at("least_detectable").get<double>(), 1.959964 * std::sqrt(0.5) * 0.0254, 1e-6);
  CHECK(gap.at("real") == true);
  CHECK(gap.at("toward") == "band");
  const auto& tilt = told.at("checks")[1];
  CHECK(tilt.at("real") == false);
  CHECK_CLOSE(tilt.at("before").at("band").at("upper").get<double>(), 15, 1e-9);
  CHECK_CLOSE(tilt.at("after").at("band").at("upper").get<double>(), 12, 1e-9);
  CHECK(tilt.at("before").at("verdict") == "high");
  CHECK(nlohmann::json::parse(result_json(example_graded())).at("since_last").is_null());
}

}  // namespace
}  // namespace rangecheck::report
