// SPDX-License-Identifier: MIT
// A coach's own readings, and every way in which a person may get such a table wrong.
#include "history/readings.hpp"

#include <doctest/doctest.h>

#include <numbers>

#include "close.hpp"

namespace rangecheck::history {
namespace {

using grade::Verdict;

std::vector<Record> read(const std::string& text, std::span<const Record> known = {}) {
  const auto found = read_readings(text, "mine.csv", known);
  if (!found) FAIL(to_string(found.error()));
  return *found;
}

std::string refused(const std::string& text) {
  const auto found = read_readings(text, "mine.csv");
  REQUIRE_FALSE(found);
  CHECK(found.error().fault == Fault::bad_value);
  return to_string(found.error());
}

constexpr double rad_per_deg = std::numbers::pi / 180;

TEST_CASE("readings: values in any unit of their dimension") {
  const auto records = read(
      "submission,check,value,unit,u\r\n"
      "s-1,stance-width,14,in,0.5\r\n"
      "s-1,forward-bend,38.5,deg,\r\n"
      "s-2,stance-width,36,cm,1\r\n"
      "s-2,ball-position,45,%,\r\n"
      "s-2,forward-bend,0.7,rad,\r\n"
      "s-2,top/shoulder-turn,,deg,\r\n"
      "s-2,tempo-ratio,3.1,,\r\n");
  REQUIRE(records.size() == 2);
  REQUIRE(records[0].checks.size() == 2);
  CHECK(records[0].submission == "s-1");
  CHECK(records[0].student == "");
  const auto& width = records[0].checks[0];
  CHECK(width.id == "stance-width");
  CHECK(width.title == "Stance width");
  CHECK(width.position == Position::address);
  CHECK_CLOSE(width.value_si.value(), 14 * 0.0254, 1e-12);
  CHECK_CLOSE(width.standard_uncertainty_si, 0.5 * 0.0254, 1e-12);
  CHECK(width.verdict == Verdict::not_seen);
  CHECK_CLOSE(records[0].checks[1].value_si.value(), 38.5 * rad_per_deg, 1e-12);
  CHECK(records[0].checks[1].standard_uncertainty_si == 0);
  const auto& second = records[1].checks;
  REQUIRE(second.size() == 5);
  CHECK_CLOSE(second[0].value_si.value(), 0.36, 1e-12);
  CHECK_CLOSE(second[1].value_si.value(), 0.45, 1e-12);
  CHECK_CLOSE(second[2].value_si.value(), 0.7, 1e-12);
  CHECK(second[3].position == Position::top);
  CHECK_FALSE(second[3].value_si);  // empty: not read
  CHECK(second[4].position == std::nullopt);
}

TEST_CASE("readings: a position stands before the check, in its column, or by its p-number") {
  const auto records = read(
      "student,position,check,value,unit\n"
      "s-1,top,shoulder-turn,90,deg\n"
      "s-1,p7,impact/hip-turn,40,deg\n"
      "s-1,address,forward-bend,30,deg\n"
      "s-1,,p10/forward-bend,10,deg\n"
      "s-1,,tempo-ratio,3,\n");
  REQUIRE(records.size() == 1);
  CHECK(records[0].student == "s-1");
  CHECK(records[0].submission == "");
  std::vector<std::string> ids;
  for (const auto& check : records[0].checks) ids.push_back(check.id);
  CHECK(ids == std::vector<std::string>{"top/shoulder-turn", "impact/hip-turn", "forward-bend",
                                        "finish/forward-bend", "tempo-ratio"});
}

TEST_CASE("readings: rows of checks.csv, with quotation marks, spaces and a byte-order mark") {
  const auto records = read(
      "\xEF\xBB\xBFsubmission, student,position,check,unit,value,u,verdict,title\n"
      "s-1,a,address,stance-width, in ,\"14.5\",0.7,inside,\"Width, of the stance\"\n"
      "\n"
      "s-1,a,top,top/shoulder-turn,deg,,,not seen,\n"
      "s-1,a,address,forward-bend,deg,20,2,low,\n");
  REQUIRE(records.size() == 1);
  CHECK(records[0].student == "a");
  REQUIRE(records[0].checks.size() == 3);
  CHECK(records[0].checks[0].verdict == Verdict::inside);
  CHECK(records[0].checks[1].verdict == Verdict::not_seen);
  CHECK(records[0].checks[2].verdict == Verdict::low);
}

TEST_CASE("readings: a coach's own measure is known where the other side has it") {
  const std::string text = "submission,check,value,unit\ns-1,my-measure,3,cm\n";
  CHECK(refused(text).find("mine.csv:2: check: there is no check \"my-measure\"") == 0);
  Record other;
  other.checks.push_back({.id = "my-measure",
                          .title = "My measure",
                          .position = Position::address,
                          .dimension = Dimension::length,
                          .unit = "cm",
                          .verdict = Verdict::inside,
                          .value_si = 1,
                          .band = {}});
  const auto records = read(text, std::span(&other, 1));
  CHECK(records[0].checks[0].title == "My measure");
  CHECK(records[0].checks[0].verdict == Verdict::not_seen);  // the other's own is not taken over
  CHECK_CLOSE(records[0].checks[0].value_si.value(), 0.03, 1e-12);
}

TEST_CASE("readings: mistakes are refused with their line, column and remedy") {
  struct Wrong {
    std::string rows, message;
  };
  const std::string head = "submission,check,value,unit,u,verdict,position\n";
  const Wrong all[] = {
      {"s,forward-bnd,1,deg,,,\n",
       "2: check: there is no check \"forward-bnd\" (did you mean forward-bend?)"},
      {"s,top/shoulder-trn,1,deg,,,\n", "(did you mean top/shoulder-turn?)"},
      {"s,imapct/hip-turn,1,deg,,,\n", "\"imapct\" is no position (did you mean impact?)"},
      {"s,hip-turn,1,deg,,,imapct\n",
       "2: position: \"imapct\" is no position (did you mean impact?)"},
      {"s,top/shoulder-turn,1,deg,,,impact\n", "\"top/shoulder-turn\" is not at impact"},
      {"s,tempo-ratio,3,,,,top\n", "leave position empty"},
      {"s,shoulder-turn,1,deg,,,\n", "is not measured at address"},
      {"s,forward-bend,1,degrees,,,\n", "2: unit: there is no unit \"degrees\" (write deg,"},
      {"s,forward-bend,1,in,,,\n", "2: value: \"1 in\" isn't an angle: it is a length"},
      {"s,stance-width,14,,,,\n", "it has no unit"},
      {"s,stance-width,14,%,,,\n", "it is a ratio"},
      {"s,forward-bend,nan,deg,,,\n", "\"nan deg\" isn't an angle"},
      {"s,forward-bend,inf,deg,,,\n", "\"inf deg\" isn't an angle"},
      {"s,forward-bend,1e300,rad,,,\n", "beyond all measure"},
      {"s,forward-bend,wide,deg,,,\n", "\"wide deg\" isn't an angle"},
      {"s,forward-bend,\"38,5\",deg,,,\n", "the decimal sign is a point"},
      {"s,forward-bend,1,deg,-2,,\n", "2: u: is less than 0"},
      {"s,forward-bend,1,deg,x,,\n", "2: u: \"x deg\" isn't an angle"},
      {"s,forward-bend,1,deg,,lo,\n", "2: verdict: there is no verdict \"lo\" (did you mean low?)"},
      {"s,,1,deg,,,\n", "2: check: the row names no check"},
      {",forward-bend,1,deg,,,\n", "2: submission: the row does not say whose it is"},
      {"s,forward-bend,1,deg,,,\ns,forward-bend,2,deg,,,\n",
       "3: check: \"forward-bend\" stands there twice for this submission"},
      {"s,forward-bend,1,deg,,,,more\n", "2: has more cells than the header has columns"},
      {"s,\"forward-bend,1,deg,,,\n", "a quotation mark is opened and never closed"}};
  for (const auto& [rows, message] : all) {
    CAPTURE(rows);
    const std::string found = refused(head + rows);
    CAPTURE(found);
    CHECK(found.starts_with("mine.csv:"));
    CHECK(found.find(message) != std::string::npos);
  }
}

TEST_CASE("readings: a header that can't be") {
  CHECK(refused("").find("is empty") != std::string::npos);
  CHECK(refused("submission,chekc,value,unit\n").find("did you mean check?") != std::string::npos);
  CHECK(refused("submission;check;value;unit\n").find("separate the columns by commas") !=
        std::string::npos);
  CHECK(
      refused("check,value,unit\n").find("mine.csv:1: submission: the first line has no column") ==
      0);
  CHECK(refused("student,check,value\n").find("mine.csv:1: unit: the first line") == 0);
  CHECK(refused("student,check,value,unit,unit\n").find("stands there twice") != std::string::npos);
  CHECK(refused("submission,student,check,value,unit\ns,a,forward-bend,1,deg\n"
                "s,b,side-bend,1,deg\n")
            .find("mine.csv:3: student: is another student") == 0);
}

}  // namespace
}  // namespace rangecheck::history
