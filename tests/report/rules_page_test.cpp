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
        "  where     address (p1)\n"
        "  needs     lead heel and trail heel\n"
        "  seen      when its standard uncertainty is at most 0.0381 m\n"
        "  limit     Heels hidden by tall grass are guessed.\n"
        "  source    own definition\n"
        "  example   lead heel (0.18, 0, 0), trail heel (-0.18, 0, 0) gives 0.36 m (by\n"
        "            construction)\n"
        "\n"
        "Points are in metres in the golfer frame: (toward the target, up, toward the ball).\n");
}

TEST_CASE("a rule of later positions says where, and what at address it compares with") {
  const auto page = rule_page(pelvis_shift);
  CHECK(page.find("  where     shaft parallel back to impact (p2-p7) and finish (p10)\n"
                  "  needs     lead hip and trail hip\n"
                  "  compared  with lead hip and trail hip at address\n") != std::string::npos);
  CHECK(
      page.find("  example   lead hip (0.25, 0.9, 0), trail hip (-0.05, 0.9, 0), at address lead\n"
                "            hip (0.15, 0.9, 0), at address trail hip (-0.15, 0.9, 0) gives 0.1 m\n"
                "            (by construction)\n") != std::string::npos);
}

TEST_CASE("a rule about times names its moments and has nothing to say of points") {
  CHECK(rule_page(backswing_time) ==
        "backswing-time: Backswing time\n"
        "\n"
        "  region    timing\n"
        "  unit      s\n"
        "  sign      from address to top, longer is slower\n"
        "  where     the swing as a whole\n"
        "  needs     the times of address and top\n"
        "  seen      when its standard uncertainty is at most 0.05 s\n"
        "  limit     A pause at the top counts too.\n"
        "  source    own definition\n"
        "  example   address 0.25 s, top 1 s gives 0.75 s (by construction)\n");
}

TEST_CASE("a coach's own measure has neither examples nor a source, and no lines for them") {
  measure::Rule own = heel_gap;
  own.limit = own.source = "";
  own.examples = {};
  CHECK(rule_page(own) ==
        "heel-gap: Heel gap\n"
        "\n"
        "  region    feet\n"
        "  unit      m\n"
        "  sign      centre to centre, never negative\n"
        "  where     address (p1)\n"
        "  needs     lead heel and trail heel\n"
        "  seen      when its standard uncertainty is at most 0.0381 m\n");
}

TEST_CASE("the table says where each rule is measured") {
  const auto table = rules_table();
  const auto at = table.find("  stance-width ");
  REQUIRE(at != std::string::npos);
  const auto line = table.substr(at, table.find('\n', at) - at);
  CHECK(line.find(" p1") < line.find("Stance width"));
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
