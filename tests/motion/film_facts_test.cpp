// SPDX-License-Identifier: MIT
// What is told of a film against how it was made.
#include "motion/film_facts.hpp"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <array>

#include "close.hpp"
#include "framed.hpp"

namespace rangecheck::motion {
namespace {

using samples::Skeleton;
using test::Beyond;

/// Follows the golfer and takes the facts, also of a golfer who never stands still.
FilmFacts facts_of(const intake::FilmedView& film, std::optional<double> rate_hz = std::nullopt) {
  const auto track = pose::follow_golfer(film);
  REQUIRE(track);
  const auto motion = film_motion(*track, rate_hz, "full");
  const auto clock = clock_of(*track, rate_hz);
  REQUIRE(clock);
  return film_facts(*track, film.film, *clock, motion ? &*motion : nullptr);
}

samples::FilmedTruth still_film(std::uint64_t seed, Skeleton skeleton) {
  samples::Options options;
  options.views = {seed % 2 == 0 ? samples::View::face_on : samples::View::down_the_line};
  options.detector.skeleton = skeleton;
  options.family = seed % 3 == 0 ? samples::Family::preset : samples::Family::neutral;
  return samples::draw(seed, options).films[0];
}

/// As intake would name it.
intake::FilmedView framed(const samples::FilmedTruth& film, Skeleton skeleton, double top_px,
                          double bottom_px, Beyond beyond) {
  auto out = test::framed(film, top_px, bottom_px, beyond);
  if (skeleton == Skeleton::points_33) out.film.estimator = intake::Estimator::points_33;
  return out;
}

constexpr std::array skeletons{Skeleton::all, Skeleton::points_25, Skeleton::points_33,
                               Skeleton::coco_17};

struct Tally {
  int films = 0, covered = 0;
  double error = 0, squares = 0, u = 0;
  void add(const Fact& told, double truth) {
    ++films;
    covered += std::abs(told.value - truth) <= 1.96 * told.u;
    error += told.value - truth;
    squares += std::pow(told.value - truth, 2);
    u += told.u;
  }
  std::string text(std::string_view what) const {
    return fmt::format("{:<28} {} films, mean error {:+.4f}, RMS {:.4f}, mean u {:.4f}, {:.1f} %\n",
                       what, films, error / films, std::sqrt(squares / films), u / films,
                       100.0 * covered / films);
  }
};

TEST_CASE("facts: the golfer's height in the picture, and the margins") {
  std::string text;
  for (const Skeleton skeleton : skeletons) {
    Tally height, feet, head;
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
      const auto film = still_film(seed, skeleton);
      const auto truth = test::extent_of(film);
      const double picture = film.camera.height_px;
      const auto facts = facts_of(framed(film, skeleton, 0, picture, Beyond::guessed));
      REQUIRE(facts.height_share);
      height.add(*facts.height_share, truth.height_px() / picture);
      feet.add(facts.feet->at_address, (picture - truth.sole_px) / truth.height_px());
      head.add(facts.head->at_address, truth.top_px / truth.height_px());
    }
    text += height.text(fmt::format("height, skeleton {}", int(skeleton)));
    text += feet.text("  below the feet") + head.text("  above the head");
    CHECK(height.covered >= 0.9 * height.films);
    CHECK(feet.covered >= 0.9 * feet.films);
    CHECK(head.covered >= 0.9 * head.films);
  }
  MESSAGE(text);
}

TEST_CASE("facts: what is cut off is told, however the estimator takes it") {
  int cut = 0, told = 0, whole = 0, wrong = 0;
  Tally margins;
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    const Skeleton skeleton = skeletons[seed % skeletons.size()];
    const auto film = still_film(seed, skeleton);
    const auto truth = test::extent_of(film);
    for (const Beyond beyond : test::all_beyond)
      for (const bool of_feet : {true, false})
        for (const double margin : {-0.15, -0.06, -0.025, 0.0, 0.02, 0.06}) {
          const double edge = of_feet ? truth.sole_px + margin * truth.height_px()
                                      : truth.top_px - margin * truth.height_px();
          const auto view = framed(film, skeleton, of_feet ? 0 : edge,
                                   of_feet ? edge : film.camera.height_px, beyond);
          const auto facts = facts_of(view);
          const auto& of = of_feet ? facts.feet : facts.head;
          CAPTURE(seed);
          CAPTURE(int(beyond));
          CAPTURE(of_feet);
          CAPTURE(margin);
          REQUIRE(of);
          if (std::abs(margin) < 0.1) margins.add(of->at_address, margin);
          // As filming.yaml has it: surely less than a good film leaves, surely beyond the edge.
          const bool is_told = of->at_address.value + 1.28 * of->at_address.u < 0.05;
          const bool as_cut = of->at_address.value + 1.28 * of->at_address.u < -0.01;
          if (margin <= -0.02) {
            ++cut;
            told += is_told;
            CHECK(is_told);
          } else {
            ++whole;
            wrong += as_cut;
            CHECK_FALSE(as_cut);
          }
        }
  }
  CHECK(margins.covered >= 0.93 * margins.films);
  MESSAGE(margins.text("margins at the edge"));
  MESSAGE(fmt::format("cut off: {} of {} told; whole: {} of {} called cut off", told, cut, wrong,
                      whole));
}

samples::FilmedSwing swing_film(std::uint64_t seed, const samples::SwingOptions& options) {
  return samples::draw_swing(seed, options).films[0];
}

samples::SwingOptions swing_options(samples::View view, double rate_hz) {
  samples::SwingOptions options;
  options.base.views = {view};
  options.base.detector.outlier_chance = 0;
  options.rate_hz = rate_hz;
  return options;
}

TEST_CASE("facts: rate, lost pictures and unevenness are those of the film") {
  for (const double rate_hz : {30.0, 60.0, 240.0}) {
    auto options = swing_options(samples::View::face_on, rate_hz);
    const auto even = facts_of(test::film_of(swing_film(1, options)));
    REQUIRE(even.rate_hz);
    CHECK(std::abs(*even.rate_hz - rate_hz) <= 0.01 * rate_hz);
    CHECK(*even.lost_share == 0);
    CHECK(*even.unevenness <= 0.01);

    options.dropped_chance = 0.1;
    const auto film = swing_film(1, options);
    const auto there = static_cast<double>(film.frames.size());
    const auto all = static_cast<double>(film.number.back() - film.number.front() + 1);
    const auto dropped = facts_of(test::film_of(film));
    CHECK(std::abs(*dropped.lost_share - (1 - there / all)) <= 0.015);

    options.dropped_chance = 0;
    options.uneven_s = 0.1 / rate_hz;
    // Each step has the error of two moments.
    const auto uneven = facts_of(test::film_of(swing_film(1, options)));
    CHECK(std::abs(*uneven.unevenness - 0.1 * std::sqrt(2.0)) <= 0.03);
  }
}

TEST_CASE("facts: repeated pictures are lost ones; a rate that nobody gives is not known") {
  auto options = swing_options(samples::View::face_on, 60);
  options.repeated_chance = 0.2;
  const auto facts = facts_of(test::film_of(swing_film(2, options)));
  CHECK(*facts.lost_share > 0.12);
  CHECK(*facts.lost_share < 0.28);
  auto film = test::film_of(swing_film(2, swing_options(samples::View::face_on, 60)));
  for (auto& frame : film.film.frames) frame.time.reset();
  CHECK_FALSE(facts_of(film).rate_hz);
  CHECK(std::abs(*facts_of(film, 60).rate_hz - 60) < 1e-9);
}

TEST_CASE("facts: how long the golfer stands still") {
  double longest_error_s = 0;
  for (std::uint64_t seed = 1; seed <= 12; ++seed) {
    const auto swing = swing_film(seed, swing_options(samples::View::face_on, 60));
    const auto film = test::film_of(swing);
    const auto facts = facts_of(film);
    REQUIRE(facts.still_s);
    CHECK_FALSE(facts.still_longer);
    CAPTURE(seed);
    const double end_s = static_cast<double>(film.film.frames.size() - 1) / 60;
    REQUIRE(facts.after_address_s);
    CHECK(std::abs(*facts.after_address_s - (end_s - *swing.event_s[Position::address])) <= 0.25);
    // The first tenth of a second is the estimator's to settle; setting off is slow.
    CHECK(std::abs(*facts.still_s - (*swing.event_s[Position::address] - 0.1)) <= 0.25);
    longest_error_s = std::max(
        longest_error_s, std::abs(*facts.still_s - (*swing.event_s[Position::address] - 0.1)));
  }
  MESSAGE(fmt::format("still: at most {:.3f} s off", longest_error_s));
}

TEST_CASE("facts: hands that leave the picture, and by how much") {
  int cut = 0, told = 0, whole = 0, wrong = 0;
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    const auto swing = swing_film(seed, swing_options(samples::View::face_on, 60));
    double highest_px = 1e9, top_px = 1e9, sole_px = -1e9;
    const auto lowest = [&](LandmarkId id) {
      return swing.camera.project(*swing.truth[0][id]).y();
    };
    for (const auto& points : swing.truth)
      for (const Side side : {Side::lead, Side::trail})
        for (const Joint joint : {Joint::wrist, Joint::index_1, Joint::little_1})
          highest_px = std::min(highest_px, swing.camera.project(*points[{side, joint}]).y());
    top_px = lowest(centre(Joint::head_top));
    sole_px = std::max(lowest(lead(Joint::big_toe)), lowest(trail(Joint::big_toe)));
    for (const Beyond beyond : test::all_beyond)
      for (const double margin : {-0.12, 0.08}) {
        const double edge_px = highest_px - margin * (sole_px - top_px);
        auto film = test::film_of(swing);
        film.film.image->height_px -= edge_px;
        for (auto& frame : film.film.frames)
          for (auto& point : frame.people[0].image.values()) {
            if (!point) continue;
            point->at.y_px -= edge_px;
            if (point->at.y_px >= 0) continue;
            if (beyond == Beyond::left_out) point.reset();
            if (beyond == Beyond::put_on_the_edge) point->at.y_px = 0;
          }
        const auto facts = facts_of(film);
        REQUIRE(facts.hands);
        CAPTURE(seed);
        CAPTURE(int(beyond));
        CAPTURE(facts.hands->least.value);
        const bool is_told = facts.hands->least.value + 1.28 * facts.hands->least.u < 0.02;
        const bool as_cut = facts.hands->least.value + 1.28 * facts.hands->least.u < -0.01;
        if (margin < 0) {
          ++cut;
          told += is_told;
          CHECK(is_told);
        } else {
          ++whole;
          wrong += as_cut;
          CHECK_FALSE(as_cut);
        }
      }
  }
  MESSAGE(fmt::format("hands: {} of {} told, {} of {} wrongly", told, cut, wrong, whole));
  CHECK(told >= 0.9 * cut);
}

TEST_CASE("facts: how far the hands move between pictures goes with the rate") {
  const auto at = [](double rate_hz) {
    return *facts_of(test::film_of(swing_film(4, swing_options(samples::View::face_on, rate_hz))))
                .hands_step;
  };
  // Hands pass impact at some 5 to 9 m/s: a tenth of a golfer's height and more at 30 Hz.
  CHECK(at(30) > 0.08);
  CHECK(at(30) < 0.25);
  CHECK(std::abs(at(30) / at(240) - 8) < 2.5);
}

TEST_CASE(
    "facts: what blur takes from the hands' confidence shows, a body that hides them does not") {
  for (const auto view : {samples::View::face_on, samples::View::down_the_line}) {
    const auto swing = swing_film(5, swing_options(view, 120));
    auto film = test::film_of(swing);
    const auto before = facts_of(film);
    REQUIRE(before.hands_kept);
    CHECK(*before.hands_kept > 0.7);
    for (std::size_t f = 0; f < swing.frames.size(); ++f) {
      const double t = swing.time_s[f];
      if (t < *swing.event_s[Position::lead_arm_parallel_down] ||
          t > *swing.event_s[Position::impact])
        continue;
      for (const Side side : {Side::lead, Side::trail})
        if (auto& wrist = film.film.frames[f].people[0].image[{side, Joint::wrist}])
          wrist->confidence *= 0.25;
    }
    const auto after = facts_of(film);
    CHECK(std::abs(*after.hands_kept / *before.hands_kept - 0.25) < 0.1);
  }
}

intake::FilmedView whole(const samples::FilmedTruth& film) {
  return test::framed(film, 0, film.camera.height_px, Beyond::guessed);
}

TEST_CASE("facts: jitter and confidence are what the estimator gives") {
  samples::Options options;
  options.views = {samples::View::face_on};
  options.detector.jitter_mm = {8, 8};
  options.detector.frames = 40;
  options.detector.outlier_chance = 0;
  options.detector.confidence = {0.8, 0.8};
  const auto film = samples::draw(3, options).films[0];
  const auto facts = facts_of(whole(film));
  const auto truth = test::extent_of(film);
  const double px_per_m =
      film.camera.focal_px / film.camera.seen(*film.points[lead(Joint::hip)]).z();
  // Neighbours are alike by 0.6 (samples/generator/detector_parts.hpp): a step has √(1 − 0.6).
  const double expected = 0.008 * std::sqrt(0.4) * px_per_m / truth.height_px();
  CHECK(std::abs(*facts.jitter_share / expected - 1) < 0.2);
  REQUIRE(facts.parts.size() == 5);
  for (const auto& part : facts.parts) {
    CHECK(std::abs(part.at_address - 0.8) < 0.03);
    CHECK_FALSE(part.in_swing);
  }
  auto without = whole(film);
  without.film.confidence_given = false;
  CHECK(facts_of(without).parts.empty());
  CHECK_FALSE(facts_of(without).hands_kept);
}

TEST_CASE("facts: a film that shows nobody, and points in space only, tell what they can") {
  const auto film = still_film(2, Skeleton::all);
  auto view = whole(film);
  view.film.picture_is_drawn = true;
  const auto drawn = facts_of(view);
  CHECK_FALSE(drawn.height_share);
  CHECK_FALSE(drawn.feet);
  CHECK(drawn.still_s);
  CHECK(drawn.still_longer);
  CHECK(*drawn.after_address_s < 0.1);
  const FilmFacts none = film_facts({}, {}, {}, nullptr);
  CHECK(none.pictures == 0);
  CHECK_FALSE(none.still_s);
  CHECK_FALSE(none.after_address_s);
}

}  // namespace
}  // namespace rangecheck::motion
