// SPDX-License-Identifier: MIT
// Stated uncertainty against truth over made-up golfers and cameras.
#include "posture/population.hpp"

#include "close.hpp"

namespace rangecheck {
namespace {

using test::Films;
using test::Population;

constexpr int golfers = test::many_golfers ? 120 : 15;

Population of(Films films) { return test::run_population(films, 1, golfers); }

/// 95 % intervals hold the truth about as often as they say. 120 golfers of 13 to 35 measures each,
/// alike within a golfer: a share of 95 % found anywhere from 92 to 98; prior knowledge is wide on
/// purpose, so more are covered. Of one measure, fewer than 88 % of 60 is one chance in a hundred.
void check_coverage(const Population& population) {
  MESSAGE(test::table(population));
  CHECK(population.golfers == golfers);
  CHECK(population.refused == 0);
  CHECK(population.all().seen > 5 * golfers);
  if (!test::many_golfers) return;
  CHECK(population.all().coverage() >= 0.92);
  CHECK(population.all().coverage() <= 0.995);
  for (const auto& [id, performance] : population.measures) {
    if (performance.seen < golfers / 2) continue;
    CAPTURE(id);
    CHECK(performance.coverage() >= 0.88);
  }
}

/// Root mean square error, degrees or inches.
void check_rms(const Population& population, const std::string& id, double limit) {
  CAPTURE(id);
  CHECK(population.of(id).seen_share() >= 0.9);
  CHECK(population.of(id).rms() <= (test::many_golfers ? limit : 2 * limit));
}

void check_not_claimed(const Population& population, std::initializer_list<const char*> ids) {
  for (const std::string id : ids) {
    CAPTURE(id);
    REQUIRE(population.of(id).tried == golfers);
    CHECK(population.of(id).seen_share() <= 0.05);
  }
}

}  // namespace

TEST_CASE("made-up golfers, both films") {
  const Population population = of(Films::both);
  check_coverage(population);
  check_rms(population, "stance-width", 0.85);
  check_rms(population, "forward-bend", 2.8);
  check_rms(population, "side-bend", 4);
  check_rms(population, "trail-knee-inset", 0.8);
  check_rms(population, "shoulder-tilt", 2.8);
  check_rms(population, "shoulder-line-to-stance", 4.5);
}

TEST_CASE("made-up golfers, face-on alone") {
  const Population population = of(Films::face_on);
  check_coverage(population);
  check_rms(population, "stance-width", 1.2);
  check_rms(population, "trail-knee-inset", 0.8);
  check_not_claimed(population, {"shoulder-line-to-stance", "shoulder-line-to-target",
                                 "lead-knee-flexion", "trail-knee-flexion", "forward-bend"});
}

TEST_CASE("made-up golfers, down-the-line alone") {
  const Population population = of(Films::down_the_line);
  check_coverage(population);
  check_rms(population, "forward-bend", 2.8);
  check_not_claimed(population, {"stance-width", "side-bend", "trail-knee-inset"});
}

}  // namespace rangecheck
