// SPDX-License-Identifier: MIT
#include "grade/band.hpp"

#include "close.hpp"

using namespace rangecheck;
using grade::parse_target;

namespace {

std::string complaint(std::string_view text, Dimension wanted) {
  const auto target = parse_target(text, wanted);
  return target ? "read" : to_string(target.error());
}

double degrees(double value) { return Angle::degrees(value).in_radians(); }

}  // namespace

TEST_CASE("target: every form a coach may write") {
  const auto width = parse_target("14..15 in", Dimension::length);
  REQUIRE(width);
  CHECK_CLOSE(*width->band.lower_si, 14 * 0.0254, 1e-12);
  CHECK_CLOSE(*width->band.upper_si, 15 * 0.0254, 1e-12);
  CHECK(width->unit == "in");

  for (const auto* text : {"around 30 deg ± 5 deg", "around 30 deg +- 5 deg", "around 30 ± 5 deg",
                           "25..35 deg", "25 deg .. 35 deg"}) {
    CAPTURE(text);
    const auto turn = parse_target(text, Dimension::angle);
    REQUIRE(turn);
    CHECK_CLOSE(*turn->band.lower_si, degrees(25), 1e-12);
    CHECK_CLOSE(*turn->band.upper_si, degrees(35), 1e-12);
    CHECK(turn->unit == "deg");
  }

  const auto least = parse_target("at-least -3 deg", Dimension::angle);
  REQUIRE(least);
  CHECK_CLOSE(*least->band.lower_si, degrees(-3), 1e-12);
  CHECK(!least->band.upper_si);
  const auto most = parse_target("at-most 12 cm", Dimension::length);
  REQUIRE(most);
  CHECK(!most->band.lower_si);
  CHECK_CLOSE(*most->band.upper_si, 0.12, 1e-12);

  const auto ratio = parse_target("0.45..0.55", Dimension::ratio);
  REQUIRE(ratio);
  CHECK_CLOSE(*ratio->band.lower_si, 0.45, 1e-12);
  CHECK(ratio->unit == "");
  const auto percent = parse_target("45..55 %", Dimension::ratio);
  REQUIRE(percent);
  CHECK_CLOSE(*percent->band.upper_si, 0.55, 1e-12);
  const auto around = parse_target("around 0 deg ± 2 deg", Dimension::angle);
  REQUIRE(around);
  CHECK_CLOSE(*around->band.lower_si, degrees(-2), 1e-12);
  const auto mixed = parse_target("30 cm..14 in", Dimension::length);
  REQUIRE(mixed);
  CHECK_CLOSE(*mixed->band.lower_si, 0.3, 1e-12);
}

TEST_CASE("target: what can't be read is said") {
  const std::string forms =
      " (write `14..15 in`, `at-least 3 deg`, `at-most 5 deg` or `around 30 deg ± 5 deg`)";
  CHECK(complaint("about 30", Dimension::angle) == "\"about 30\" is not a target" + forms);
  CHECK(complaint("15..14 in", Dimension::length) ==
        "\"15..14 in\": the lower limit must be less than the upper" + forms);
  CHECK(complaint("14..14 in", Dimension::length) ==
        "\"14..14 in\": the lower limit must be less than the upper" + forms);
  CHECK(complaint("around 30 deg", Dimension::angle) ==
        "\"around 30 deg\" says around what, but not within how much" + forms);
  CHECK(complaint("around 30 ± 0 deg", Dimension::angle) ==
        "\"around 30 ± 0 deg\": the half-width must be more than 0" + forms);
  for (const auto* text : {"", "..", "14..", "..15 in", "at-least", "at-most in", "around ± deg",
                           "14..15", "14..15 deg", "1e999..2e999 in"}) {
    CAPTURE(text);
    CHECK(complaint(text, Dimension::length) != "read");
  }
}

TEST_CASE("band: is written in the coach's unit") {
  CHECK(to_string(grade::Band{degrees(25), degrees(35)}, Dimension::angle, "deg") == "25..35 deg");
  CHECK(to_string(grade::Band{0.1, std::nullopt}, Dimension::length, "cm") == "at least 10 cm");
  CHECK(to_string(grade::Band{std::nullopt, 0.5}, Dimension::ratio, "") == "at most 0.5");
  CHECK(to_string(grade::Band{}, Dimension::ratio, "") == "any");
}

TEST_CASE("band: distance beyond it") {
  const grade::Band band{1, 3};
  CHECK_CLOSE(grade::distance_beyond(0.5, band), 0.5, 1e-15);
  CHECK_CLOSE(grade::distance_beyond(2, band), 0, 0);
  CHECK_CLOSE(grade::distance_beyond(7, band), 4, 1e-15);
  CHECK_CLOSE(grade::distance_beyond(-9, {std::nullopt, 3}), 0, 0);
}
