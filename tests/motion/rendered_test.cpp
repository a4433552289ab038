// SPDX-License-Identifier: MIT
// Times of positions against those of rendered swings, read by a real estimator (tests/films).
#include "motion/rendered.hpp"

#include <doctest/doctest.h>

#include "motion/film_motion.hpp"

namespace rangecheck {
namespace {

/// Largest errors, seconds, front and behind: measured on these films, and a third on top. The
/// figures there set off two frames after p1 is said to be; seen from behind, hands wrapped round
/// the neck are lost.
struct Limit {
  Position position;
  double front_s, behind_s;
};
constexpr Limit limits[] = {
    {Position::address, 0.055, 0.10},
    {Position::shaft_parallel_back, 0.06, 0.09},
    {Position::lead_arm_parallel_back, 0.075, 0.045},
    {Position::top, 0.025, 0.025},
    {Position::lead_arm_parallel_down, 0.02, 0.035},
    {Position::shaft_parallel_down, 0.02, 0.02},
    {Position::impact, 0.025, 0.025},
    {Position::shaft_parallel_through, 0.06, 0.05},
    {Position::trail_arm_parallel_through, 0.03, 0.03},
    {Position::finish, 0.12, 0.12},
};

TEST_CASE("rendered swings: every position is near its true time, and says how near") {
  const auto films =
      test::rendered_films(std::filesystem::path(RANGECHECK_SOURCE_DIR) / "tests" / "films");
  REQUIRE(films.size() == 3);
  int inside = 0, all = 0;
  for (const auto& film : films) {
    const auto motion = motion::film_motion(film.track, film.rate_hz, "full");
    CAPTURE(film.name);
    REQUIRE(motion);
    REQUIRE(motion->swing);
    CHECK(motion->swing->notes.empty());
    for (const auto& [position, front_s, behind_s] : limits) {
      const std::string which{alias_of(position)};
      CAPTURE(which);
      const auto& found = (*motion->swing)[position].found;
      REQUIRE(found);
      CHECK_FALSE(found->from_club);
      const double error_s = found->time.in_seconds() - *film.truth_s[position];
      const double u_s = found->standard_uncertainty.in_seconds();
      CHECK(std::abs(error_s) <= (film.track.view == intake::View::face_on ? front_s : behind_s));
      CHECK(std::abs(error_s) <= 3 * u_s);
      inside += std::abs(error_s) <= 2 * u_s;
      ++all;
    }
    const auto last = static_cast<double>(motion->address.last_frame);
    CHECK(last >= *film.truth_s[Position::address] * film.rate_hz - 3);
    // From behind, hands that set off along the line of sight seem to rest a little longer.
    CHECK(last <= *film.truth_s[Position::address] * film.rate_hz + 6);
  }
  CHECK(inside >= 0.9 * all);
}

}  // namespace
}  // namespace rangecheck
