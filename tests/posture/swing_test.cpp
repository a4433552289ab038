// SPDX-License-Identifier: MIT
// The body at later positions of the swing: made-up swings with known joints, and rendered golfers
// filmed by a real estimator (tests/films).
#include <doctest/doctest.h>

#include <cmath>
#include <filesystem>

#include "close.hpp"
#include "pose/golfer.hpp"
#include "posture/space_films.hpp"
#include "posture/swings.hpp"

namespace rangecheck {
namespace {

using test::Films;
using test::Moments;
using test::Population;

const std::filesystem::path films_folder =
    std::filesystem::path(RANGECHECK_SOURCE_DIR) / "tests" / "films";

/// A made-up swing up to its address, and what its films show with the lead arm level on the way
/// down.
struct ComingDown {
  posture::AddressEstimate address;
  posture::PositionEvidence evidence;
};

ComingDown coming_down(std::uint64_t seed, bool same_swing) {
  samples::SwingOptions options;
  options.base.detector.skeleton = samples::Skeleton::points_25;
  options.base.same_swing = same_swing;
  options.rate_hz = 60;
  const auto drawn = samples::draw_swing(seed, options);
  posture::Evidence evidence;
  evidence.stature = Length::metres(drawn.golfer.body.stature_m);
  evidence.same_swing = same_swing;
  posture::PositionEvidence down{.phase = 4, .views = {}, .same_swing = same_swing};
  for (const auto& truth : drawn.films) {
    const auto film = test::marked_film_of(truth);
    const auto track = pose::follow_golfer(film);
    REQUIRE(track);
    const auto motion = motion::film_motion(*track, options.rate_hz, "full");
    REQUIRE(motion);
    evidence.views.push_back({.view = film.view,
                              .estimator = film.film.estimator,
                              .image = *film.film.image,
                              .still = motion->address,
                              .ball = film.ball,
                              .target_line = std::nullopt,
                              .camera = {}});
    down.views.push_back(
        motion->track.at(Duration::seconds(*truth.event_s[Position::lead_arm_parallel_down])));
  }
  auto address = posture::estimate_address_to_carry(evidence);
  REQUIRE(address);
  return {*std::move(address), std::move(down)};
}

double u_of(const char* rule, const posture::Posture& posture) {
  const auto measured = measure::measure(*measure::find_rule(rule), posture);
  REQUIRE(measured.value);
  return measured.standard_uncertainty;
}

}  // namespace

TEST_CASE("swing: measures at every position of made-up swings are as good as they say") {
  const int count = test::many_golfers ? 24 : 2;
  const Population both = test::run_swings({.films = Films::both}, 1001, count);
  CHECK(both.refused == 0);
  const auto all = both.all();
  CHECK(all.seen > 0.5 * all.tried);
  if (!test::many_golfers) return;
  CHECK(all.coverage() > 0.93);
  for (const auto& [id, each] : both.measures) {
    CAPTURE(id);
    if (each.seen < count / 2) continue;
    CHECK(each.coverage() > 0.75);
  }
  for (const char* id : {"top/forward-bend", "impact/forward-bend", "top/trail-knee-flexion",
                         "impact/trail-knee-flexion", "top/side-bend", "impact/side-bend"}) {
    CAPTURE(id);
    CHECK(both.of(id).seen_share() > 0.5);
    CHECK(both.of(id).rms() < 5);
  }
  for (const char* id : {"top/pelvis-sway", "impact/pelvis-sway", "top/head-sway"}) {
    CAPTURE(id);
    CHECK(both.of(id).seen_share() > 0.9);
    CHECK(both.of(id).rms() < 0.6);
  }
}

TEST_CASE("swing: one film says less, and nothing wrong with confidence") {
  if (!test::many_golfers) return;
  for (const Films films : {Films::face_on, Films::down_the_line}) {
    const auto all = test::run_swings({.films = films}, 1001, 16).all();
    CHECK(all.coverage() > 0.93);
  }
}

TEST_CASE("swing: rendered golfers filmed by a real estimator") {
  // Joints known: tests/films/README.md. swing-00 is upside down down the line.
  for (const auto& [id, films] :
       {std::pair{"swing-01", Films::both}, std::pair{"swing-01", Films::face_on},
        std::pair{"swing-01", Films::down_the_line}, std::pair{"swing-00", Films::face_on}}) {
    CAPTURE(id);
    Population population;
    test::hold_film(films_folder / id, films, Moments::found, population);
    CHECK(population.refused == 0);
    const auto all = population.all();
    CHECK(all.seen > 20);
    CHECK(all.coverage() > 0.90);
  }
}

TEST_CASE("swing: a rendered golfer in space only, as a real estimator guesses") {
  // No swing is found in what is guessed of the other golfer's arms.
  Population population;
  test::hold_film(films_folder / "swing-00", Films::face_on, Moments::found, population,
                  test::without_picture);
  MESSAGE(test::swing_table(population));
  CHECK(population.refused == 0);
  const auto all = population.all();
  CHECK(all.tried > 50);
  CHECK(all.seen > 10);
  CHECK(all.covered >= 0.9 * all.seen);
}

TEST_CASE("swing: a moment that is unsure widens what moves fast then") {
  auto [address, evidence] = coming_down(7, true);
  const auto sure = posture::estimate_position(*address.carried, evidence);
  for (auto& film : evidence.views) film->standard_uncertainty = Duration::seconds(0.02);
  const auto unsure = posture::estimate_position(*address.carried, evidence);
  REQUIRE(sure);
  REQUIRE(unsure);
  // Coming down the lead arm turns by some 500 degrees a second: 10 degrees in 20 ms.
  const double arm_deg =
      180 / M_PI *
      std::sqrt(std::pow(u_of("arm-turn", *unsure), 2) - std::pow(u_of("arm-turn", *sure), 2));
  CHECK(arm_deg > 4);
  CHECK(arm_deg < 20);
  CHECK(u_of("pelvis-lift", *unsure) < 1.5 * u_of("pelvis-lift", *sure));
}

TEST_CASE("swing: a change since address is known better than both postures apart") {
  const auto [address, evidence] = coming_down(8, true);
  const auto posture = posture::estimate_position(*address.carried, evidence);
  REQUIRE(posture);
  const double together = u_of("pelvis-sway", *posture);
  posture::Posture apart = *posture;
  const auto now = 3 * static_cast<Eigen::Index>(apart.landmarks.size());
  const auto then = 3 * static_cast<Eigen::Index>(apart.address_landmarks.size());
  apart.covariance.topRightCorner(now, then).setZero();
  apart.covariance.bottomLeftCorner(then, now).setZero();
  CHECK(together < 0.8 * u_of("pelvis-sway", apart));
}

TEST_CASE("swing: the address in a later posture is the address as it was estimated") {
  const auto [address, evidence] = coming_down(9, true);
  const auto posture = posture::estimate_position(*address.carried, evidence);
  REQUIRE(posture);
  for (const LandmarkId id : {lead(Joint::hip), trail(Joint::knee), lead(Joint::heel)}) {
    const auto at = 3 * static_cast<Eigen::Index>(*posture->find_at_address(id));
    const posture::Point then = posture->mean.segment<3>(at);
    // What the swing shows moves it a little, well within what it was unsure by.
    CHECK((then - *address.posture.point(id)).norm() < 0.03);
  }
  const auto ball = *posture->point(centre(Joint::ball));
  CHECK((ball - *address.posture.point(centre(Joint::ball))).norm() < 0.03);
}

TEST_CASE("swing: films that show next to nothing at a moment are refused there") {
  auto [address, evidence] = coming_down(10, true);
  for (auto& film : evidence.views) film.reset();
  const auto nothing = posture::estimate_position(*address.carried, evidence);
  REQUIRE_FALSE(nothing);
  CHECK(nothing.error().what == "fewer than 6 landmarks of the body are seen there");
}

}  // namespace rangecheck
