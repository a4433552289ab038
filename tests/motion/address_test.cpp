// SPDX-License-Identifier: MIT
// Which of several still windows is the address.
#include "motion/moving.hpp"

namespace rangecheck {
namespace {

using test::error_of;
using test::farthest_px;
using test::Hands;
using test::hands_at;
using test::Moving;
using test::swing_keys;
using test::swing_s;
using test::waggle_keys;
using test::waggle_s;

constexpr Hands finish = swing_keys[std::size(swing_keys) - 1].hands;
constexpr double rates_hz[] = {30, 60, 240};

TEST_CASE("the window ends before the swing") {
  for (const double rate_hz : rates_hz) {
    CAPTURE(rate_hz);
    Moving film(rate_hz);
    film.hold(0.6);
    const std::size_t takeaway = film.frames();
    film.move(swing_keys, 0, swing_s).hold(1.2, finish);
    const auto still = film.still();
    REQUIRE(still);
    CHECK(still->first_frame == std::lround(0.1 * rate_hz));
    CHECK(still->last_frame + 2 >= takeaway);
    // Hands that have moved by less than 17 mm can't be told from hands at rest.
    const auto [aside, up] =
        hands_at(swing_keys, static_cast<double>(still->last_frame - takeaway) / rate_hz);
    if (still->last_frame >= takeaway) CHECK(std::hypot(aside, up) < 0.015);
    CHECK(farthest_px(*still) < 1.5);
  }
}

TEST_CASE("an address barely long enough is found before a finish held for long") {
  Moving film(30);
  film.hold(0.3).move(swing_keys, 0, swing_s).hold(3, finish);
  const auto still = film.still();
  REQUIRE(still);
  CHECK(still->first_frame == 3);
  CHECK(still->last_frame <= 10);
  CHECK(farthest_px(*still) < 3);
}

TEST_CASE("a film that starts in the swing has no address") {
  const std::string text =
      "the golfer is still only after the swing in the face-on film (start the film a second "
      "before the swing and hold the address)";
  for (const double rate_hz : rates_hz) {
    for (const double from_s : {0.1, 0.5, 0.9}) {
      CAPTURE(rate_hz);
      CAPTURE(from_s);
      Moving film(rate_hz);
      film.move(swing_keys, from_s, swing_s).hold(1, finish);
      CHECK(error_of(film) == text);
    }
    // A finish that an estimator draws with the hands at the hips is none either.
    Moving low(rate_hz);
    low.move(swing_keys, 0.5, swing_s).hold(1, {0.3, 0.05});
    CHECK(error_of(low) == text);
  }
}

TEST_CASE("a pause at the top is not the address") {
  const Hands top = swing_keys[2].hands;
  Moving film(30);
  film.hold(0.5).move(swing_keys, 0, 0.8).hold(0.4, top).move(swing_keys, 0.8, swing_s);
  const auto still = film.still();
  REQUIRE(still);
  CHECK(still->last_frame <= 17);
  CHECK(farthest_px(*still) < 1.5);
}

TEST_CASE("after a waggle the second stretch, nearer the swing, is the address") {
  for (const double rate_hz : rates_hz) {
    CAPTURE(rate_hz);
    Moving film(rate_hz);
    film.hold(0.8).move(waggle_keys, 0, waggle_s);
    const std::size_t back = film.frames();
    film.hold(0.5);
    const std::size_t takeaway = film.frames();
    film.move(swing_keys, 0, swing_s).hold(1, finish);
    const auto still = film.still();
    REQUIRE(still);
    const auto a_tenth = static_cast<std::size_t>(std::lround(0.1 * rate_hz));
    CHECK(still->first_frame + a_tenth >= back);
    CHECK(still->last_frame < takeaway + a_tenth);
    CHECK(still->last_frame + 2 >= takeaway);
    CHECK(farthest_px(*still) < 2);
  }
}

TEST_CASE("where a golfer stood before stepping to the ball is not the address") {
  Moving film(30);
  film.placed.x_px = 250;
  film.hold(1).walk(500, 0.8);
  const std::size_t arrived = film.frames();
  film.hold(0.5).move(swing_keys, 0, swing_s).hold(2, finish);
  const auto still = film.still();
  REQUIRE(still);
  CHECK(still->first_frame + 3 >= arrived);
  CHECK(still->last_frame < arrived + 18);
  CHECK(farthest_px(*still) < 1.5);
}

TEST_CASE("after a practice swing the second address is taken") {
  Moving film(30);
  film.hold(0.5).move(swing_keys, 0, swing_s).hold(0.5, finish);
  film.move(waggle_keys, 0.3, waggle_s);
  const std::size_t back = film.frames();
  film.hold(0.6).move(swing_keys, 0, swing_s).hold(0.5, finish);
  const auto still = film.still();
  REQUIRE(still);
  CHECK(still->first_frame + 3 >= back);
  CHECK(still->last_frame <= back + 20);
  CHECK(farthest_px(*still) < 1.5);
}

TEST_CASE("a golfer who comes back to the ball after the swing is not at address again") {
  Moving film(30);
  film.hold(0.5).move(swing_keys, 0, swing_s).hold(0.5, finish).hold(1.5).walk(800, 0.5).hold(0.5);
  const auto still = film.still();
  REQUIRE(still);
  CHECK(still->last_frame <= 17);
}

TEST_CASE("the finish of a slow stroke, longer held than the address, is not taken") {
  constexpr test::Key putt[] = {{0, {}}, {0.6, {-0.12, 0.01}}, {1.1, {0.16, 0.02}}};
  Moving film(30);
  film.hold(0.5).move(putt, 0, 1.1).hold(1.5, {0.16, 0.02}).walk(800, 1).hold(1);
  const auto still = film.still();
  REQUIRE(still);
  CHECK(still->last_frame <= 18);
  CHECK(farthest_px(*still) < 1.5);
}

TEST_CASE("an estimator that loses both hands in one frame has not seen a swing") {
  Moving film(30);
  film.hold(1);
  for (const Side side : {Side::lead, Side::trail}) {
    film.track.frames[5].person->image[{side, Joint::wrist}]->at.x_px += 300;
  }
  const auto still = film.still();
  REQUIRE(still);
  CHECK(still->last_frame == 29);
  CHECK(farthest_px(*still) < 1.5);
}

}  // namespace
}  // namespace rangecheck
