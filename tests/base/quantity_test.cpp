// SPDX-License-Identifier: MIT
#include "base/quantity.hpp"

#include "close.hpp"

using namespace rangecheck;

TEST_CASE("a quantity is read in the unit it is written in") {
  struct Case {
    const char* text;
    Dimension dimension;
    double si;
  };
  constexpr double degree = 0.017453292519943295;
  const Case cases[] = {
      {"14.5 in", Dimension::length, 0.3683},    {"37 cm", Dimension::length, 0.37},
      {"1755 mm", Dimension::length, 1.755},     {"+0.95 m", Dimension::length, 0.95},
      {"-3 deg", Dimension::angle, -3 * degree}, {"0.5rad", Dimension::angle, 0.5},
      {"0.45", Dimension::ratio, 0.45},          {"-45 %", Dimension::ratio, -0.45},
      {"250 ms", Dimension::time, 0.25},         {"1.5e-1 s", Dimension::time, 0.15},
      {"5 ft 10 in", Dimension::length, 1.778},  {"-1 ft 6 in", Dimension::length, -0.4572},
  };
  for (const auto& c : cases) {
    CAPTURE(c.text);
    const auto read = parse_quantity(c.text, c.dimension);
    REQUIRE(read);
    CHECK(read->dimension == c.dimension);
    CHECK_CLOSE(read->si, c.si, 1e-12);
  }
}

TEST_CASE("what can't be a quantity says what was read and what is understood") {
  struct Case {
    const char* text;
    Dimension wanted;
    const char* what;
    const char* remedy;
  };
  const char* lengths = "write a number and a unit: in, ft, m, cm, mm";
  const Case cases[] = {
      {"178", Dimension::length, "\"178\" isn't a length: it has no unit", lengths},
      {"20 deg", Dimension::length, "\"20 deg\" isn't a length: it is an angle", lengths},
      {"14,5 in", Dimension::length, "\"14,5 in\" isn't a length: the decimal sign is a point",
       lengths},
      {"tall", Dimension::length, "\"tall\" isn't a length", lengths},
      {"", Dimension::length, "\"\" isn't a length", lengths},
      {"10 in 5 ft", Dimension::length,
       "\"10 in 5 ft\" isn't a length: its units don't go from large to small", lengths},
      {"5 ft -10 in", Dimension::length, "\"5 ft -10 in\" isn't a length: it has two signs",
       lengths},
      {"inf m", Dimension::length, "\"inf m\" isn't a length", lengths},
      {"1e999 m", Dimension::length, "\"1e999 m\" isn't a length", lengths},
      {"0.3 0.4", Dimension::ratio,
       "\"0.3 0.4\" isn't a ratio: its units don't go from large to small",
       "write a plain number such as 0.45, or one with %"},
  };
  for (const auto& c : cases) {
    CAPTURE(c.text);
    const auto read = parse_quantity(c.text, c.wanted);
    REQUIRE_FALSE(read);
    CHECK(read.error().what == c.what);
    CHECK(read.error().remedy == c.remedy);
  }
}

TEST_CASE("units: found by symbol, counted in, chosen for display") {
  CHECK_FALSE(find_unit("furlong"));
  CHECK_CLOSE(in_unit(Quantity::of(Length::metres(0.254)), *find_unit("in")), 10, 1e-12);
  CHECK_CLOSE(in_unit(Quantity::of(Ratio{0.25}), *find_unit("%")), 25, 1e-12);
  CHECK(display_unit(Dimension::angle).symbol == "deg");
  CHECK(display_unit(Dimension::length).symbol == "in");
  CHECK(display_unit(Dimension::length, "cm").symbol == "cm");
  CHECK(display_unit(Dimension::ratio).symbol.empty());
  CHECK(display_unit(Dimension::time).symbol == "s");
}
