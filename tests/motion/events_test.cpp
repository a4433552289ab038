// SPDX-License-Identifier: MIT
// Times of positions against those of made-up swings.
#include <doctest/doctest.h>

#include "motion/event_errors.hpp"

namespace rangecheck {
namespace {

constexpr int few = 24;
constexpr double frame_s = 1.0 / 60;
constexpr samples::View views[] = {samples::View::face_on, samples::View::down_the_line};

samples::SwingOptions at_60(bool club) {
  samples::SwingOptions out;
  out.rate_hz = 60;
  out.club = club;
  return out;
}

/// Median and 95 % of the errors, in frames of 60 Hz, and honest uncertainties.
void check_errors(const test::Outcome& outcome, double median_frames, double far_frames) {
  // When hands that slow down for half a second pass a speed is what a film shows least well.
  const auto limit = [](Position position, double frames) {
    return (position == Position::finish ? 2.1 : 1.1) * frames * frame_s;
  };
  CHECK(outcome.no_swing == 0);
  CHECK(outcome.silently_wrong == 0);
  CHECK(outcome.refused.empty());
  double inside = 0, all = 0;
  for (const Position position : all_positions) {
    const auto& errors = outcome[position];
    const std::string which{alias_of(position)};
    CAPTURE(which);
    CHECK(errors.shown >= few - 2);
    CHECK(errors.error_s.size() == errors.shown);
    CHECK(errors.quantile_s(0.5) <= limit(position, median_frames));
    CHECK(errors.quantile_s(0.9) <= limit(position, far_frames));
    inside += errors.covered() * static_cast<double>(errors.error_s.size());
    all += static_cast<double>(errors.error_s.size());
  }
  CHECK(inside / all >= 0.90);
  CHECK(inside / all <= 0.998);
}

TEST_CASE("with club points positions are timed to a frame or two") {
  for (const auto view : views) {
    const std::string film{samples::name_of(view)};
    CAPTURE(film);
    check_errors(test::outcome_of(at_60(true), view, 5000, few), 2, 4);
  }
}

TEST_CASE("without club points positions are timed to two frames, or four") {
  for (const auto view : views) {
    const std::string film{samples::name_of(view)};
    CAPTURE(film);
    check_errors(test::outcome_of(at_60(false), view, 6000, few), 2, 4);
  }
}

TEST_CASE("whatever else is in the film, the real swing is the one that is found") {
  for (const auto view : views) {
    for (const bool practice : {false, true}) {
      auto options = at_60(false);
      options.waggle = true;
      options.practice_swing = practice;
      options.dropped_chance = 0.03;
      options.repeated_chance = 0.03;
      options.uneven_s = 0.002;
      const std::string film{samples::name_of(view)};
      CAPTURE(film);
      CAPTURE(practice);
      const auto outcome = test::outcome_of(options, view, 7000, few);
      CHECK(outcome.silently_wrong == 0);
      CHECK(outcome.no_swing == 0);
      CHECK(outcome.refused.empty());
      CHECK(outcome[Position::impact].quantile_s(0.9) < 4 * frame_s);
    }
  }
}

}  // namespace
}  // namespace rangecheck
