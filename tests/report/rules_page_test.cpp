// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include "example.hpp"

namespace rangecheck::report {
namespace {

TEST_CASE("a rule's page says all that its registration says") {
  CHECK(rule_page(heel_gap) ==
        "heel-gap: Heel gap\n"
        "\n"
        "  region    feet\n"
        "  unit      m\n"
        "  sign      centre to centre, never negative\n"
        "  needs     lead heel and trail heel\n"
        "  seen      when its standard uncertainty is at most 0.0381 m\n"
        "  limit     Heels hidden by tall grass are guessed.\n"
        "  source    own definition\n"
        "  example   lead heel (0.18, 0, 0), trail heel (-0.18, 0, 0) gives 0.36 m (by\n"
        "            construction)\n"
        "\n"
        "Points are in metres in the golfer frame: (toward the target, up, toward the ball).\n");
}

TEST_CASE("the table lists every rule of the catalogue once, regions from the ground up") {
  const auto table = rules_table();
  std::size_t after = 0;
  for (const measure::Rule* rule : measure::catalogue()) {
    const auto at = table.find("  " + std::string(rule->id) + " ", after);
    CAPTURE(rule->id);
    REQUIRE(at != std::string::npos);
    after = at;
  }
}

}  // namespace
}  // namespace rangecheck::report
