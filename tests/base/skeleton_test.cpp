// SPDX-License-Identifier: MIT
#include "base/skeleton.hpp"

#include <doctest/doctest.h>

#include <set>

using namespace rangecheck;

TEST_CASE("every landmark has an index, a name and a way back") {
  std::set<std::string> names;
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const LandmarkId id = landmark_at(i);
    CHECK(index_of(id) == i);
    CHECK(find_joint(key_of(id.joint)) == id.joint);
    CHECK(mirrored(mirrored(id)) == id);
    CHECK((id.side == Side::centre) == !is_paired(id.joint));
    names.insert(key_of(id));
  }
  CHECK(names.size() == landmark_count);
}

TEST_CASE("names of landmarks, for programs and for people") {
  CHECK(key_of(lead(Joint::big_toe)) == "lead_big_toe");
  CHECK(name_of(lead(Joint::big_toe)) == "lead big toe");
  CHECK(key_of(trail(Joint::little_1)) == "trail_little_1");
  CHECK(key_of(centre(Joint::club_toe)) == "club_toe");
  CHECK(key_of(Joint::hands_mid) == "hands_mid");
  CHECK(name_of(centre(Joint::head_top)) == "head top");
  CHECK_FALSE(find_joint("tail"));
}
