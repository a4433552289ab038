// SPDX-License-Identifier: MIT
// What find_swing and film_motion say of films that are cut short, slow or of several swings.
#include "drawn_film.hpp"
#include "motion/moving.hpp"
#include "said.hpp"

namespace rangecheck {
namespace {

using test::Moving;
using test::swing_keys;
using test::swing_s;

constexpr test::Hands finish = swing_keys[std::size(swing_keys) - 1].hands;

motion::Swing swing_of(const Moving& film, double rate_hz) {
  const auto motion = motion::film_motion(film.track, rate_hz, "full");
  REQUIRE(motion);
  REQUIRE(motion->swing);
  return *motion->swing;
}

double time_of(const motion::Swing& swing, Position position) {
  const std::string which{alias_of(position)};
  CAPTURE(which);
  REQUIRE(swing[position].found);
  return swing[position].found->time.in_seconds();
}

TEST_CASE("a drawn swing is where it was drawn, and its times rise") {
  for (const double rate_hz : {30.0, 60.0, 240.0}) {
    CAPTURE(rate_hz);
    Moving film(rate_hz);
    film.hold(0.6).move(swing_keys, 0, swing_s).hold(1, finish);
    const auto swing = swing_of(film, rate_hz);
    CHECK_CLOSE(time_of(swing, Position::top), 1.4, 0.03);
    CHECK_CLOSE(time_of(swing, Position::impact), 1.7, 0.04);
    CHECK(swing.notes.empty());
    double before_s = -1;
    for (const Position position : all_positions) {
      if (!swing[position].found) continue;
      const double time_s = time_of(swing, position);
      CHECK(time_s > before_s);
      before_s = time_s;
    }
  }
}

TEST_CASE("a film that ends before the finish says what is missing and what to do") {
  Moving film(60);
  film.hold(0.6).move(swing_keys, 0, 1.16);
  const auto swing = swing_of(film, 60);
  CHECK(swing[Position::top].found);
  for (const Position position : {Position::trail_arm_parallel_through, Position::finish}) {
    CHECK_FALSE(swing[position].found);
    CHECK(swing[position].reason == "the film ends in the middle of the swing");
    CHECK(swing[position].remedy == "keep filming until you stand still");
  }
}

TEST_CASE("a film that ends in the finish before the hands rest says so") {
  Moving film(60);
  film.hold(0.6).move(swing_keys, 0, 1.38);
  const auto swing = swing_of(film, 60);
  CHECK(swing[Position::impact].found);
  CHECK_FALSE(swing[Position::finish].found);
  CHECK(swing[Position::finish].remedy == "keep filming until you stand still");
}

TEST_CASE("a film that begins midway has no address") {
  Moving film(60);
  film.move(swing_keys, 0.4, swing_s).hold(1, finish);
  CHECK(test::error_of(film) ==
        "the golfer is still only after the swing in the face-on film (start the film a second "
        "before the swing and hold the address)");
  const auto clock = motion::clock_of(film.track, 60);
  REQUIRE(clock);
  const auto swing =
      motion::find_swing(motion::smooth(film.track, *clock), intake::View::face_on, "full");
  REQUIRE(swing);
  CHECK_CLOSE(time_of(*swing, Position::top), 0.4, 0.03);
  CHECK_FALSE((*swing)[Position::address].found);
  CHECK((*swing)[Position::address].reason == "the film begins in the middle of the swing");
  CHECK((*swing)[Position::address].remedy == "start the film a second before the swing");
}

TEST_CASE("of two swings the last fast one is real, and a note tells of the other") {
  const auto two = [](bool slow_first, bool slow_second) {
    std::vector<test::Key> slow(std::begin(swing_keys), std::end(swing_keys));
    for (auto& key : slow) key.at_s *= 2;
    Moving film(60);
    const auto swing = [&](bool slowly) {
      film.hold(0.6);
      if (slowly) film.move(slow, 0, 2 * swing_s);
      if (!slowly) film.move(swing_keys, 0, swing_s);
      film.hold(0.5, finish).move(test::waggle_keys, 0.3, test::waggle_s);
    };
    swing(slow_first);
    swing(slow_second);
    film.hold(0.4);
    return film;
  };
  const auto practice = swing_of(two(true, false), 60);
  CHECK_CLOSE(time_of(practice, Position::top), 0.6 + 3 + 0.5 + 0.3 + 0.6 + 0.8, 0.04);
  CHECK(in_english(practice.notes) ==
        std::vector<std::string>{"a practice swing at 2.2 s is left alone"});
  const auto again = swing_of(two(false, true), 60);
  CHECK_CLOSE(time_of(again, Position::top), 1.4, 0.04);
  CHECK(in_english(again.notes) ==
        std::vector<std::string>{"another swing at 5.1 s is left alone"});
}

TEST_CASE("a film in slow motion that does not say so is told") {
  std::vector<test::Key> slow(std::begin(swing_keys), std::end(swing_keys));
  for (auto& key : slow) key.at_s *= 4;
  Moving film(60);
  film.hold(2.4).move(slow, 0, 4 * swing_s).hold(2, finish);
  CHECK(in_english(swing_of(film, 60).notes) ==
        std::vector<std::string>{
            "the swing is as slow as in slow motion: state the rate at which it was filmed"});
}

TEST_CASE("short swings have what they reach, and say so of the rest") {
  for (const auto& [kind, word] : {std::pair{samples::SwingKind::pitch, "pitch"},
                                   {samples::SwingKind::chip, "chip"},
                                   {samples::SwingKind::putt, "putt"}}) {
    CAPTURE(word);
    samples::SwingOptions options;
    options.kind = kind;
    options.rate_hz = 60;
    options.base.views = {samples::View::face_on};
    options.base.setup = kind == samples::SwingKind::putt   ? samples::Setup::putter
                         : kind == samples::SwingKind::chip ? samples::Setup::chip
                                                            : samples::Setup::wedge;
    int found = 0;
    for (std::uint64_t seed = 1; seed <= 6; ++seed) {
      const auto drawn = samples::draw_swing(seed, options);
      const auto track = pose::follow_golfer(test::film_of(drawn.films[0]));
      REQUIRE(track);
      const auto motion = motion::film_motion(*track, std::nullopt, word);
      const std::string error = motion ? "" : to_string(motion.error());
      CAPTURE(error);
      CAPTURE(seed);
      REQUIRE(motion);
      if (!motion->swing) continue;
      ++found;
      const auto& truth = drawn.films[0].event_s;
      for (const Position position : {Position::top, Position::impact})
        CHECK_CLOSE(time_of(*motion->swing, position), *truth[position], 0.08);
      if (kind == samples::SwingKind::pitch) continue;
      const auto& arm = (*motion->swing)[Position::lead_arm_parallel_back];
      CHECK_FALSE(arm.found);
      CHECK(arm.reason == std::string("this ") + word + " does not go that far");
    }
    CHECK(found >= 5);
  }
}

}  // namespace
}  // namespace rangecheck
