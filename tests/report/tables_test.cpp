// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include "example.hpp"

namespace rangecheck::report {
namespace {

TEST_CASE("the coach's table has a line a submission and the set-aside ones with reasons") {
  Graded graded[] = {example_graded(), example_without_grade(), example_swing(),
                     example_address_of_swing()};
  auto facts = well_filmed();
  facts.rate_hz = 30;
  graded[1].films.push_back(example_film(intake::View::down_the_line, facts));
  graded[2].films.clear();
  const SetAside set_aside[] = {example_set_aside()};
  const auto table = coach_table(summaries_of(graded), set_aside);
  CHECK(table ==
        "submission     student  grade     seen  found  films  work on first\n"
        "s-0417-7-iron  s-0417   62 ± 8 %  70 %  1/1    good   heel-gap\n"
        "s-0418-7-iron  s-0417   no grade  20 %  1/1    poor   film again\n"
        "s-0419-7-iron  s-0417   71 ± 8 %  70 %  5/7    -      p4 pelvis-shift +2\n"
        "s-0417-7-iron  s-0417   62 ± 8 %  70 %  1/10   good   heel-gap\n"
        "\n"
        "set aside\n"
        "  s-0500: s-0500/face-on.json: frame 3: is cut short (send the file again)\n");
}

TEST_CASE("no student's name is in the table") {
  const Graded graded[] = {example_graded()};
  CHECK(coach_table(summaries_of(graded), {}).find("Ann") == std::string::npos);
}

TEST_CASE("an empty night makes an empty table") { CHECK(coach_table({}, {}).empty()); }

}  // namespace
}  // namespace rangecheck::report
