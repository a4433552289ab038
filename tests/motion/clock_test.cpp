// SPDX-License-Identifier: MIT
// Seconds of the real scene from what files say of time.
#include "motion/clock.hpp"

#include <algorithm>

#include "motion/moving.hpp"
#include "said.hpp"

namespace rangecheck {
namespace {

using motion::Clock;
using motion::clock_of;
using test::Moving;

/// A golfer who stands for a second and swings for one and a half.
pose::Track swinging(double rate_hz) {
  Moving film(rate_hz);
  film.hold(1).move(test::swing_keys, 0, test::swing_s);
  return film.track;
}

void stamp(pose::Track& track, double step_s, double start_s = 0) {
  for (std::size_t f = 0; f < track.frames.size(); ++f)
    track.frames[f].time = Duration::seconds(start_s + step_s * static_cast<double>(f));
}

void lose(pose::Track& track, std::size_t first, std::size_t count) {
  const auto from = track.frames.begin() + static_cast<std::ptrdiff_t>(first);
  track.frames.erase(from, from + static_cast<std::ptrdiff_t>(count));
}

Clock clock_or_fail(const pose::Track& track, std::optional<double> stated_rate_hz) {
  const auto clock = clock_of(track, stated_rate_hz);
  REQUIRE(clock);
  REQUIRE(clock->time_s.size() == track.frames.size());
  REQUIRE(clock->repeated.size() == track.frames.size());
  return *clock;
}

std::size_t repeats_in(const Clock& clock) {
  return static_cast<std::size_t>(std::count(clock.repeated.begin(), clock.repeated.end(), true));
}

using Notes = std::vector<std::string>;

TEST_CASE("without stamps time is frame number over rate") {
  for (const double rate_hz : {24.0, 30.0, 59.94, 240.0}) {
    const Clock clock = clock_or_fail(swinging(rate_hz), rate_hz);
    CHECK(clock.time_s[0] == 0);
    CHECK_CLOSE(clock.time_s[20], 20 / rate_hz, 1e-12);
    CHECK_CLOSE(clock.step_s, 1 / rate_hz, 1e-12);
    CHECK(repeats_in(clock) == 0);
    CHECK(in_english(clock.notes) == Notes{});
  }
}

TEST_CASE("without stamps and rate 30 a second are assumed") {
  const Clock clock = clock_or_fail(swinging(30), std::nullopt);
  CHECK_CLOSE(clock.time_s[30], 1, 1e-12);
  CHECK(in_english(clock.notes) == Notes{"no frame rate is given: 30 frames a second assumed"});
}

TEST_CASE("stamps count from the first frame and need no rate") {
  auto track = swinging(60);
  stamp(track, 1.0 / 60, 12.5);
  for (const auto& stated_hz : {std::optional<double>{}, std::optional<double>{60}}) {
    const Clock clock = clock_or_fail(track, stated_hz);
    CHECK(clock.time_s[0] == 0);
    CHECK_CLOSE(clock.time_s[45], 0.75, 1e-9);
    CHECK_CLOSE(clock.step_s, 1.0 / 60, 1e-9);
    CHECK(in_english(clock.notes) == Notes{});
  }
}

TEST_CASE("29.97 is called 30 and left as stamped") {
  auto track = swinging(30);
  stamp(track, 1 / 29.97);
  const Clock clock = clock_or_fail(track, 30);
  CHECK_CLOSE(clock.step_s, 1 / 29.97, 1e-12);
  CHECK(in_english(clock.notes) == Notes{});
}

TEST_CASE("playback time of slow motion is brought to the real scene") {
  auto track = swinging(240);
  stamp(track, 1.0 / 30);
  const Clock clock = clock_or_fail(track, 240);
  CHECK_CLOSE(clock.time_s[240], 1, 1e-9);
  CHECK_CLOSE(clock.step_s, 1.0 / 240, 1e-12);
  CHECK(in_english(clock.notes) ==
        Notes{"the file's times run 8 times slower than the stated 240 frames a second: slow "
              "motion, brought to real time"});
}

TEST_CASE("stamps that run faster than the stated rate give way to it") {
  auto track = swinging(60);
  stamp(track, 1.0 / 60);
  const Clock clock = clock_or_fail(track, 30);
  CHECK_CLOSE(clock.step_s, 1.0 / 30, 1e-12);
  CHECK(in_english(clock.notes) ==
        Notes{"the file's times run 2 times faster than the stated 30 frames a "
              "second; the stated rate is taken"});
}

TEST_CASE("stamps of every second frame are no slow motion") {
  auto track = swinging(30);
  for (std::size_t f = 0; f < track.frames.size(); ++f) track.frames[f].number = 2 * f;
  stamp(track, 2.0 / 60);
  const Clock clock = clock_or_fail(track, 60);
  CHECK_CLOSE(clock.step_s, 1.0 / 30, 1e-12);
  CHECK_CLOSE(clock.time_s[30], 1, 1e-9);
  CHECK(in_english(clock.notes) == Notes{});
}

TEST_CASE("gaps in the numbers, or in the stamps, are frames that are missing") {
  auto by_number = swinging(30);
  lose(by_number, 40, 1);
  lose(by_number, 50, 2);
  auto by_stamp = swinging(30);
  stamp(by_stamp, 1.0 / 30);
  lose(by_stamp, 40, 1);
  lose(by_stamp, 50, 2);
  for (std::size_t f = 0; f < by_stamp.frames.size(); ++f) by_stamp.frames[f].number = f;
  for (const auto* track : {&by_number, &by_stamp}) {
    const Clock clock = clock_or_fail(*track, 30);
    CHECK_CLOSE(clock.time_s[39], 39.0 / 30, 1e-9);
    CHECK_CLOSE(clock.time_s[40], 41.0 / 30, 1e-9);
    CHECK_CLOSE(clock.time_s[50], 53.0 / 30, 1e-9);
    CHECK_CLOSE(clock.step_s, 1.0 / 30, 1e-9);
    CHECK(in_english(clock.notes) == Notes{"3 frames are missing from the film"});
  }
}

TEST_CASE("a frame that repeats the one before has its time") {
  auto track = swinging(30);
  for (const std::size_t f : {20U, 45U, 46U}) track.frames[f].person = track.frames[f - 1].person;
  const Clock clock = clock_or_fail(track, 30);
  CHECK(repeats_in(clock) == 3);
  CHECK(clock.repeated[20]);
  CHECK(clock.time_s[20] == clock.time_s[19]);
  CHECK(clock.time_s[46] == clock.time_s[44]);
  CHECK_CLOSE(clock.time_s[47], 47.0 / 30, 1e-12);
  CHECK_CLOSE(clock.step_s, 1.0 / 30, 1e-12);
  CHECK(in_english(clock.notes) == Notes{"3 frames repeat the one before and count once"});
}

TEST_CASE("30 pictures a second in a film of 120 have the step of the pictures") {
  const auto pictures = swinging(30);
  pose::Track track;
  for (const auto& frame : pictures.frames)
    for (int i = 0; i < 4; ++i) track.frames.push_back({track.frames.size(), {}, frame.person});
  stamp(track, 1.0 / 120);
  // Whether a person states the film's rate or that of its pictures, its time stays as stamped.
  for (const double stated_hz : {120.0, 30.0}) {
    const Clock clock = clock_or_fail(track, stated_hz);
    CHECK(repeats_in(clock) == 3 * pictures.frames.size());
    CHECK_CLOSE(clock.step_s, 1.0 / 30, 1e-9);
    CHECK_CLOSE(clock.time_s[120], 1, 1e-9);
  }
}

TEST_CASE("a golfer drawn without jitter stands still and repeats nothing") {
  Moving film(30, 0);
  film.hold(1).move(test::swing_keys, 0, test::swing_s).hold(1, test::Hands{0.08, 0.36});
  CHECK(repeats_in(clock_or_fail(film.track, 30)) == 0);
  Moving picture(30, 0);
  picture.hold(3.0 / 30);
  const Clock clock = clock_or_fail(picture.track, 30);
  CHECK(repeats_in(clock) == 0);
  CHECK_CLOSE(clock.time_s[2], 2.0 / 30, 1e-12);
}

TEST_CASE("frames without a golfer repeat nothing") {
  Moving film(30);
  film.hold(0.5).lose(2).hold(0.5);
  CHECK(repeats_in(clock_or_fail(film.track, 30)) == 0);
}

TEST_CASE("uneven stamps are kept and told") {
  auto track = swinging(30);
  for (std::size_t f = 0; f < track.frames.size(); ++f)
    track.frames[f].time =
        Duration::seconds((static_cast<double>(f) + (f % 3 == 1 ? 0.4 : 0)) / 30);
  const Clock clock = clock_or_fail(track, 30);
  CHECK_CLOSE(clock.time_s[1], 1.4 / 30, 1e-12);
  CHECK_CLOSE(clock.step_s, 1.0 / 30, 1e-9);
  CHECK(in_english(clock.notes) == Notes{"frames come unevenly, 20 to 47 ms apart"});
}

TEST_CASE("stamps rounded until frames share them are spread evenly") {
  auto track = swinging(240);
  for (std::size_t f = 0; f < track.frames.size(); ++f)
    track.frames[f].time = Duration::seconds(std::floor(static_cast<double>(f) / 2.4) / 100);
  for (const auto& stated_hz : {std::optional<double>{}, std::optional<double>{240}}) {
    const Clock clock = clock_or_fail(track, stated_hz);
    CHECK(repeats_in(clock) == 0);
    CHECK_CLOSE(clock.step_s, 1.0 / 240, 2e-5);
    CHECK(in_english(clock.notes) ==
          Notes{"the file's time stamps are too coarse: frames are spread evenly"});
  }
}

TEST_CASE("stamps in some frames only are left alone") {
  auto track = swinging(30);
  track.frames[0].time = Duration::seconds(0);
  track.frames[1].time = Duration::seconds(7);
  const Clock clock = clock_or_fail(track, 30);
  CHECK_CLOSE(clock.time_s[1], 1.0 / 30, 1e-12);
  CHECK(in_english(clock.notes) ==
        Notes{"some frames have no time stamp: times are from frame numbers"});
}

TEST_CASE("numbers that jump about or far are names of pictures") {
  auto jumping = swinging(30);
  for (std::size_t f = 0; f < jumping.frames.size(); ++f) jumping.frames[f].number = 7919 * f % 101;
  auto far = swinging(30);
  far.frames.back().number = 4'000'000'000'000;
  for (const auto* track : {&jumping, &far}) {
    const Clock clock = clock_or_fail(*track, 30);
    CHECK_CLOSE(clock.time_s.back(), static_cast<double>(track->frames.size() - 1) / 30, 1e-9);
  }
}

TEST_CASE("one picture, or none, has a clock") {
  Moving film(30);
  film.hold(1.0 / 30);
  const Clock one = clock_or_fail(film.track, std::nullopt);
  CHECK(one.time_s == std::vector<double>{0});
  CHECK_CLOSE(one.step_s, 1.0 / 30, 1e-12);
  CHECK(in_english(one.notes) == Notes{});
  CHECK(clock_or_fail({}, std::nullopt).time_s.empty());
}

TEST_CASE("what can't be a clock is an error") {
  auto backward = swinging(30);
  stamp(backward, 1.0 / 30);
  backward.frames[12].time = Duration::seconds(0.1);
  const auto clock = clock_of(backward, 30);
  REQUIRE_FALSE(clock);
  CHECK(clock.error().fault == Fault::bad_value);
  CHECK(to_string(clock.error()) ==
        "frame 12: the time stamps of the face-on film go backward (write each frame's time in "
        "seconds from the start of the film)");
  auto far = swinging(30);
  stamp(far, 1.0 / 30);
  far.frames.back().time = Duration::seconds(1e9);
  const auto stretched = clock_of(far, 30);
  REQUIRE_FALSE(stretched);
  CHECK(to_string(stretched.error()) ==
        "frame 74: the time stamps of the face-on film have a gap of 1e+09 s (send the film in one "
        "piece)");
  for (const double rate_hz : {0.0, -30.0, std::nan(""), HUGE_VAL}) {
    const auto refused = clock_of(swinging(30), rate_hz);
    REQUIRE_FALSE(refused);
    CHECK(to_string(refused.error()) ==
          "the frame rate of the face-on film is no number above 0 (give the frames a second of "
          "the real scene)");
  }
}

}  // namespace
}  // namespace rangecheck
