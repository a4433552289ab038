// SPDX-License-Identifier: MIT
// Made-up films with several people: 336 scenes with seeds that nothing was tuned or fitted on.
#include "pose/crowds.hpp"

#include <doctest/doctest.h>

#include <cstdint>

namespace rangecheck {
namespace {

constexpr std::uint64_t first_seed = 900'001;
constexpr std::uint64_t films_a_kind = 28;

struct Share {
  std::size_t films = 0, graded = 0;
};

/// Looks at every film of a kind: none may follow anyone but the golfer in any frame.
Share check_kind(const test::CrowdKind& kind) {
  Share out;
  for (std::uint64_t seed = first_seed; seed < first_seed + films_a_kind; ++seed) {
    CAPTURE(kind.name);
    CAPTURE(seed);
    const auto crowd = test::crowd_of(kind, seed);
    const auto track = pose::follow_golfer(test::film_of(crowd));
    const auto outcome = test::judge(crowd, track);
    CHECK(outcome.wrong == 0);
    ++out.films;
    out.graded += outcome.refused.empty();
    if (!track) continue;
    CHECK(track->certainty >= 0.9);
    CHECK(track->certainty <= 1);
    // What is left out is told.
    if (outcome.left_out + outcome.points_dropped > 0) CHECK_FALSE(track->notes.empty());
  }
  return out;
}

TEST_CASE("among other people the golfer is followed or the film refused, nobody else is graded") {
  Share few;
  for (const auto& kind : test::crowd_kinds()) {
    const Share share = check_kind(kind);
    if (kind.nobody_could_tell || kind.others.size() > 2) continue;
    few.films += share.films;
    few.graded += share.graded;
  }
  CHECK(few.films == 10 * films_a_kind);
  CHECK(10 * few.graded >= 9 * few.films);
}

}  // namespace
}  // namespace rangecheck
