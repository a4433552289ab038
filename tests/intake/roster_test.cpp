// SPDX-License-Identifier: MIT
#include "fixture.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;

namespace {

Result<Roster> roster_of(const std::string& csv) {
  const Scratch scratch;
  scratch.write("roster.csv", csv);
  return read_roster(scratch.path / "roster.csv");
}

std::string roster_error(const std::string& csv) {
  const auto roster = roster_of(csv);
  REQUIRE_FALSE(roster);
  CHECK(roster.error().fault == Fault::bad_profile);
  return to_string(roster.error());
}

}  // namespace

TEST_CASE("a roster as a spreadsheet exports it: byte-order mark, CRLF, quotes, any order") {
  const auto roster = roster_of(
      "\xEF\xBB\xBFName,ID,Handedness,Stature,Shoe,Limits,Style\r\n"
      "\"Berg, \"\"Annie\"\"\",s-1,left,5 ft 6 in,EU 38,\"no deep knee flexion; "
      "stiff\r\nneck\",narrow\r\n"
      ",,,,,,\r\n"
      "Zoë,s-2\r\n");
  REQUIRE(roster);
  REQUIRE(roster->size() == 2);
  const Golfer& annie = roster->at("s-1");
  CHECK(annie.id == "s-1");
  CHECK(annie.name == "Berg, \"Annie\"");
  CHECK(annie.handedness == Handedness::left);
  CHECK_CLOSE(annie.stature->in_metres(), 1.6764, 1e-12);
  CHECK_CLOSE(annie.foot->value.in_millimetres(), (38 / 1.5 - 1.5) * 10, 1e-9);
  CHECK(annie.style == "narrow");
  CHECK(annie.limits == std::vector<std::string>{"no deep knee flexion", "stiff neck"});
  const Golfer& zoe = roster->at("s-2");
  CHECK(zoe.name == "Zoë");
  CHECK(zoe.handedness == Handedness::right);
  CHECK_FALSE(zoe.stature);
  CHECK_FALSE(zoe.foot);
}

TEST_CASE("a roster's faults are named with line and column") {
  CHECK(roster_error("id,statur\ns-1,178 cm\n") ==
        "roster.csv:1: there is no column \"statur\" (did you mean stature?)");
  CHECK(roster_error("id;name\ns-1;x\n") ==
        "roster.csv:1: there is no column \"id;name\" (separate the columns by commas)");
  CHECK(roster_error("id,e-mail\n").find("the columns are id, name") != std::string::npos);
  CHECK(
      roster_error("name\nAnn\n") ==
      "roster.csv:1: id: the header has no column id (name the column with the students' ids id)");
  CHECK(roster_error("id,id\n") == "roster.csv:1: id: this column stands there twice");
  CHECK(roster_error("id,stature\n\ns-1,178\n") ==
        "roster.csv:3: stature: \"178\" isn't a length: it has no unit (write a number and a unit: "
        "in, ft, m, cm, mm)");
  CHECK(roster_error("id,name\n\"s-1\",\"two\nlines\"\n../x,y\n") ==
        "roster.csv:4: id: \"../x\" can't be an id: it may have only letters, digits, spaces and . "
        "_ - ( ) + , & '");
  CHECK(roster_error("id\ns-1\ns-1\n") == "roster.csv:3: id: \"s-1\" is in the roster twice");
  CHECK(roster_error("id,name\ns-1,Berg, Annie\n") ==
        "roster.csv:2: has more cells than the header has columns (put cells with commas into "
        "quotation marks)");
  CHECK(roster_error("id,name\ns-1,\"Annie\n") ==
        "roster.csv:2: a quotation mark is opened and never closed");
  CHECK(roster_error("id,name\ns-1,\"Ann\"ie\n") ==
        "roster.csv:2: text follows a closing quotation mark (double the quotation marks inside a "
        "cell)");
  CHECK(roster_error("id,name\ns-1,Zo\xeb\n") ==
        "roster.csv:2: name: \"Zo\\xeb\" has characters that aren't text (export the roster as CSV "
        "in UTF-8)");
  CHECK(roster_error("id,name\n,Ann\n") == "roster.csv:2: id: \"\" can't be an id: it is empty");
  CHECK(roster_error("") == "roster.csv:1: is empty (start with a line of column names)");
  CHECK(roster_error("id,shoe,handedness\ns-1,EU 42,both\n").find("roster.csv:2: handedness: ") ==
        0);
}

TEST_CASE("a roster that isn't there") {
  const auto roster = read_roster("/nonexistent/roster.csv");
  REQUIRE_FALSE(roster);
  CHECK(roster.error().fault == Fault::bad_profile);
  CHECK(roster.error().where.file == "roster.csv");
}
