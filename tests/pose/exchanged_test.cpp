// SPDX-License-Identifier: MIT
// Films in which an estimator exchanged left and right, by the hundred.
#include <doctest/doctest.h>

#include "pose/sides_cases.hpp"

namespace rangecheck {
namespace {

/// Not among the seeds that limits were chosen on (1 to 600 and 10001 to 10600).
constexpr std::uint64_t first_seed = 100'001, first_right_seed = 200'001;

TEST_CASE("exchanged sides are put right, left out or told of in every one of 360 films") {
  std::size_t exchanged = 0, put_right = 0, films = 0;
  for (const auto& each : test::sides_cases(360, first_seed)) {
    if (!each.part) continue;
    const auto outcome = test::outcome_of(each);
    CAPTURE(each.name());
    CAPTURE(outcome.refused);
    const std::size_t silently_wrong = outcome.flagged() ? 0 : outcome.wrong;
    CHECK(silently_wrong == 0);
    ++films;
    exchanged += outcome.exchanged;
    put_right += outcome.put_right;
  }
  CHECK(films >= 300);
  CHECK(static_cast<double>(put_right) >= 0.85 * static_cast<double>(exchanged));
}

TEST_CASE("of 80 right films none is refused or changed, and next to nothing is left out") {
  std::size_t right = 0, lost = 0, films_that_lost = 0;
  for (auto each : test::sides_cases(80, first_right_seed)) {
    each.part.reset();
    const auto outcome = test::outcome_of(each);
    CAPTURE(each.name());
    CHECK(outcome.refused == "");
    CHECK(outcome.wrong == 0);
    CHECK(outcome.most_moved <= 0.03);
    right += outcome.right;
    lost += outcome.right_lost;
    films_that_lost += outcome.right_lost > 0;
  }
  MESSAGE(lost << " of " << right << " points left out, in " << films_that_lost << " films");
  CHECK(static_cast<double>(lost) <= 0.01 * static_cast<double>(right));
  CHECK(films_that_lost <= 20);
}

}  // namespace
}  // namespace rangecheck
