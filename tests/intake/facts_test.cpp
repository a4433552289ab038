// SPDX-License-Identifier: MIT
#include "intake/facts.hpp"

#include "fixture.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;

namespace {

double foot_mm(std::string_view system, double size) {
  const auto foot = foot_length(system, size);
  REQUIRE(foot);
  return foot->value.in_millimetres();
}

}  // namespace

TEST_CASE("foot length by the adult formulas common on conversion tables") {
  // UK = 3 L_in − 23, US men = 3 L_in − 22, EU = 1.5 (L_cm + 1.5): 270 mm is UK 8.890, US
  // men 9.890, EU 42.750; 250 mm is 6.528, 7.528, 39.750. Given to 0.001 size, so within 0.01 mm.
  CHECK_CLOSE(foot_mm("uk", 8.890), 270, 0.01);
  CHECK_CLOSE(foot_mm("us-men", 9.890), 270, 0.01);
  CHECK_CLOSE(foot_mm("eu", 42.750), 270, 0.01);
  CHECK_CLOSE(foot_mm("uk", 6.528), 250, 0.01);
  CHECK_CLOSE(foot_mm("us-men", 7.528), 250, 0.01);
  CHECK_CLOSE(foot_mm("eu", 39.750), 250, 0.01);
  CHECK_CLOSE(foot_mm("uk", 9), 270.93, 0.01);
  CHECK_CLOSE(foot_mm("us-men", 10), 270.93, 0.01);
  CHECK_CLOSE(foot_mm("eu", 42), 265.0, 1e-9);
  CHECK_CLOSE(foot_mm("mondopoint", 275), 275, 1e-9);
  // Tables differ by half a size for women (3 L_in − 21 and − 20.5): in between.
  CHECK_CLOSE(foot_mm("us-women", 8.5), (8.5 + 20.75) / 3 * 25.4, 1e-9);
}

TEST_CASE("foot length: the spread of a whole size (rectangular, 2.44 and 1.92 mm) and 3 mm more") {
  const auto u_mm = [](std::string_view system, double size) {
    return foot_length(system, size)->standard_uncertainty.in_millimetres();
  };
  CHECK_CLOSE(u_mm("uk", 9), std::hypot(2.44, 3), 0.01);
  CHECK_CLOSE(u_mm("us-men", 10), std::hypot(2.44, 3), 0.01);
  CHECK_CLOSE(u_mm("eu", 42), std::hypot(1.92, 3), 0.01);
  CHECK_CLOSE(u_mm("mondopoint", 275), std::hypot(2.5 / std::sqrt(3.0), 3), 1e-9);
  CHECK(u_mm("us-women", 8.5) > u_mm("us-men", 8.5));
}

TEST_CASE("shoe sizes as a roster writes them") {
  const auto mm = [](const char* text) { return shoe_from(text)->value.in_millimetres(); };
  CHECK_CLOSE(mm("EU 42"), 265, 1e-9);
  CHECK_CLOSE(mm("UK 9"), 270.93, 0.01);
  CHECK_CLOSE(mm("US-M 10"), 270.93, 0.01);
  CHECK_CLOSE(mm("us men 10"), 270.93, 0.01);
  CHECK_CLOSE(mm("  mondopoint 275 "), 275, 1e-9);
  CHECK_CLOSE(mm("mondopoint 275 mm"), 275, 1e-9);
  CHECK(to_string(shoe_from("42").error()) ==
        "\"42\" isn't a shoe size (write it as EU 42, UK 9 or US-M 10)");
  CHECK(
      to_string(shoe_from("JP 27").error()) ==
      "\"JP\" isn't a shoe-size system that is known (use mondopoint, eu, uk, us-men or us-women)");
  CHECK(
      to_string(shoe_from("mondopoint 27.5").error()) ==
      "mondopoint 27.5 would be a foot of 28 mm, outside 150 mm to 350 mm (check the size and its "
      "system)");
  CHECK_FALSE(shoe_from("UK nan"));
}

TEST_CASE("statures are people's") {
  CHECK_CLOSE(stature_from("5 ft 10 in")->in_metres(), 1.778, 1e-12);
  CHECK(stature_from("0.9 m"));
  CHECK(stature_from("230 cm"));
  CHECK(to_string(stature_from("178 mm").error()) ==
        "\"178 mm\" can't be a stature: it is outside 0.9 m to 2.3 m (check the unit)");
  CHECK_FALSE(stature_from("2.31 m"));
  CHECK(stature_from("178").error().what == "\"178\" isn't a length: it has no unit");
}

TEST_CASE("handedness and limits") {
  CHECK(*handedness_from(" Left ") == Handedness::left);
  CHECK(*handedness_from("right") == Handedness::right);
  CHECK(to_string(handedness_from("lefty").error()) ==
        "\"lefty\" is neither right nor left (write right or left)");
  CHECK(limits_from(" no deep knee flexion;; stiff neck ") ==
        std::vector<std::string>{"no deep knee flexion", "stiff neck"});
}

TEST_CASE("ids become names of files") {
  for (const char* good :
       {"s-0417", "Zoë 2026-03-14", "a", "7_iron.v2", "学生1", "Jörg & O'Neil (2)"}) {
    CAPTURE(good);
    CHECK_FALSE(why_unsafe(good));
  }
  const char* hostile[] = {"",
                           "../x",
                           "a/b",
                           "a\\b",
                           ".hidden",
                           "..",
                           "-rf",
                           " a",
                           "a ",
                           "a.",
                           "a\nb",
                           "a\x01",
                           "a:b",
                           "a*",
                           "$(x)",
                           "a\xff",
                           "\xe2\x80\xae"
                           "gpj"};
  for (const char* bad : hostile) {
    CAPTURE(bad);
    CHECK(why_unsafe(bad));
  }
  CHECK_FALSE(why_unsafe(std::string(100, 'a')));
  CHECK(why_unsafe(std::string(101, 'a')) == "is longer than 100 bytes");
  CHECK(why_unsafe(std::string_view("a\0b", 3)));
}
