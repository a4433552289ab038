// SPDX-License-Identifier: MIT
// Windows in which nothing moves: which frames they take and what comes out of them.
#include "motion/moving.hpp"

namespace rangecheck {
namespace {

using test::error_of;
using test::farthest_px;
using test::Moving;

TEST_CASE("a single picture is taken as it is") {
  Moving film(30, 0);
  film.hold(1.0 / 30);
  const auto still = film.still();
  REQUIRE(still);
  CHECK(still->first_frame == 0);
  CHECK(still->last_frame == 0);
  CHECK(farthest_px(*still) == 0);
  const auto& knee = *still->points[lead(Joint::knee)];
  CHECK(knee.frames == 1);
  CHECK(knee.confidence == 0.9);
  CHECK(knee.jitter_u_px == 0);
  CHECK(still->spatial[lead(Joint::knee)]->x_m == 1.7 * 0.12);
}

TEST_CASE("a film that is still all through is used whole, less the settling") {
  Moving film(30);
  film.hold(1);
  const auto still = film.still();
  REQUIRE(still);
  CHECK(still->first_frame == 3);
  CHECK(still->last_frame == 29);
  // Median of 27 values of 1 px: 0.24 px; the largest of 38 coordinates.
  CHECK(farthest_px(*still) < 1);
  CHECK(still->points[trail(Joint::hip)]->frames == 27);
}

TEST_CASE("first frames that are far off do not move the medians") {
  for (const double seconds : {0.2, 0.3, 1.0}) {
    CAPTURE(seconds);
    Moving film(30);
    film.hold(seconds);
    for (std::size_t f = 0; f < 2; ++f) {
      for (auto& point : film.track.frames[f].person->image.values()) {
        if (point) point->at.x_px += 150.0 / static_cast<double>(f + 1);
      }
    }
    const auto still = film.still();
    REQUIRE(still);
    CHECK(farthest_px(*still) < 3);
  }
}

TEST_CASE("a wild frame in the middle does not end the window") {
  Moving film(30);
  film.hold(1);
  for (auto& point : film.track.frames[15].person->image.values()) {
    if (point) point->at.y_px += 200;
  }
  const auto still = film.still();
  REQUIRE(still);
  CHECK(still->first_frame == 3);
  CHECK(still->last_frame == 29);
  CHECK(farthest_px(*still) < 1);
}

TEST_CASE("a golfer who moves all the time is an error") {
  Moving film(30);
  for (int i = 0; i < 4; ++i) film.walk(i % 2 == 0 ? 900 : 500, 0.8);
  CHECK(error_of(film) ==
        "the golfer is never still for 0.15 s in the face-on film (start the film a second before "
        "the swing and hold the address)");
}

TEST_CASE("four pictures of a moving golfer are no address") {
  Moving film(30);
  film.walk(620, 4.0 / 30);
  CHECK(film.frames() == 4);
  CHECK_FALSE(film.still());
}

TEST_CASE("two places that are still, with a cut between, are not one window") {
  Moving film(30);
  film.hold(0.5);
  film.placed.x_px += 60;
  film.hold(1);
  const auto still = film.still();
  REQUIRE(still);
  CHECK(still->first_frame >= 15);
  CHECK(still->last_frame == 44);
  CHECK(farthest_px(*still, film.placed) < 1);
}

TEST_CASE("in slow motion too a window lasts 0.15 s") {
  const auto pause = [](double seconds) {
    Moving film(240);
    film.walk(560, 0.4).hold(seconds).walk(620, 0.4);
    return film;
  };
  CHECK_FALSE(pause(0.06).still());
  const auto still = pause(0.25).still();
  REQUIRE(still);
  CHECK(still->last_frame - still->first_frame + 1 >= 36);
  // The pause lasts from frame 96 to 155; at 0.6 px a frame its edges drown in jitter.
  CHECK(still->first_frame >= 80);
  CHECK(still->last_frame <= 171);
  CHECK(farthest_px(*still, {560}) < 1.5);
}

TEST_CASE("a landmark missing in most frames is absent, one missing in half is not") {
  Moving film(30);
  film.hold(1);
  for (std::size_t f = 0; f < film.frames(); ++f) {
    auto& person = *film.track.frames[f].person;
    if (f % 4 != 0) person.image[lead(Joint::ear)].reset();
    if (f % 4 != 0) person.space[lead(Joint::ear)].reset();
    if (f % 2 != 0) person.image[trail(Joint::ear)].reset();
  }
  const auto still = film.still();
  REQUIRE(still);
  CHECK_FALSE(still->points.has(lead(Joint::ear)));
  CHECK_FALSE(still->spatial.has(lead(Joint::ear)));
  REQUIRE(still->points.has(trail(Joint::ear)));
  CHECK(still->points[trail(Joint::ear)]->frames == 13);  // even frames of 3 … 29
  CHECK(still->spatial.has(trail(Joint::ear)));
}

TEST_CASE("frames without a golfer are skipped, and the window counts in frames of the film") {
  Moving film(30);
  film.lose(10).hold(0.3).lose(5).hold(0.5);
  const auto still = film.still();
  REQUIRE(still);
  CHECK(still->first_frame == 13);
  CHECK(still->last_frame == 38);
  CHECK(still->points[lead(Joint::knee)]->frames == 21);
  CHECK(farthest_px(*still) < 1);
}

TEST_CASE("a film without a golfer in any frame is an error") {
  Moving film(30);
  film.lose(10);
  CHECK(error_of(film) == "the golfer is in no frame (film the whole body)");
}

TEST_CASE("points in space are medians too") {
  Moving film(30);
  film.hold(1);
  for (std::size_t f = 0; f < film.frames(); ++f) {
    auto& knee = *film.track.frames[f].person->space[lead(Joint::knee)];
    knee = {0.1 + 0.001 * static_cast<double>(f), -0.5, f % 9 == 0 ? 5.0 : 0.25, 0.7};
  }
  const auto still = film.still();
  REQUIRE(still);
  const auto& knee = *still->spatial[lead(Joint::knee)];
  CHECK_CLOSE(knee.x_m, 0.116, 1e-12);  // the middle of frames 3 … 29
  CHECK(knee.y_m == -0.5);
  CHECK(knee.z_m == 0.25);
  CHECK(knee.confidence == 0.7);
}

}  // namespace
}  // namespace rangecheck
