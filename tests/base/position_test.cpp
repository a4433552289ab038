// SPDX-License-Identifier: MIT
#include "base/position.hpp"

#include <doctest/doctest.h>

using namespace rangecheck;

TEST_CASE("each position is found by its id and by its p-number") {
  for (const Position position : all_positions) {
    CHECK(find_position(id_of(position)) == position);
    CHECK(find_position(alias_of(position)) == position);
  }
  CHECK(find_position("p4") == Position::top);
  CHECK(find_position("impact") == Position::impact);
  CHECK(alias_of(Position::finish) == "p10");
  CHECK_FALSE(find_position("Top"));
  CHECK_FALSE(find_position("p11"));
}

TEST_CASE("a set of positions holds what it was made of") {
  constexpr auto back = Positions::from(Position::shaft_parallel_back, Position::top);
  CHECK(back.has(Position::lead_arm_parallel_back));
  CHECK_FALSE(back.has(Position::address));
  CHECK_FALSE(back.has(Position::lead_arm_parallel_down));
  constexpr auto two = Positions::of(Position::address, Position::finish);
  CHECK((two | back).has(Position::finish));
  CHECK((two | back).has(Position::top));
  CHECK_FALSE(two.has(Position::impact));
}
