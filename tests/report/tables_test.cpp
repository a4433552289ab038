// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include "example.hpp"

namespace rangecheck::report {
namespace {

TEST_CASE("the coach's table has a line a submission and the set-aside ones with reasons") {
  const Graded graded[] = {example_graded(), example_without_grade()};
  const SetAside set_aside[] = {example_set_aside()};
  const auto table = coach_table(graded, set_aside);
  CHECK(table ==
        "submission     student  club    swing  grade     seen  work on first\n"
        "s-0417-7-iron  s-0417   7-iron  full   62 ± 8 %  70 %  heel-gap\n"
        "s-0418-7-iron  s-0417   7-iron  full   no grade  20 %  film again\n"
        "\n"
        "set aside\n"
        "  s-0500: s-0500/face-on.json: frame 3: is cut short (send the file again)\n");
}

TEST_CASE("no student's name is in the table") {
  const Graded graded[] = {example_graded()};
  CHECK(coach_table(graded, {}).find("Ann") == std::string::npos);
}

TEST_CASE("an empty night makes an empty table") { CHECK(coach_table({}, {}).empty()); }

}  // namespace
}  // namespace rangecheck::report
