// SPDX-License-Identifier: MIT
#include "pose/figure.hpp"
#include "said.hpp"

namespace rangecheck {
namespace {

using test::figure;
using test::film_of;
using test::People;
using test::upside_down;

TEST_CASE("frames with the golfer upside down are left out and told") {
  std::vector<People> frames(10, People{figure()});
  for (const std::size_t f : {0U, 1U, 2U, 7U}) frames[f] = {upside_down(figure())};
  const auto track = pose::follow_golfer(film_of(frames, intake::View::down_the_line));
  REQUIRE(track);
  REQUIRE(track->frames.size() == 10);
  for (std::size_t f = 0; f < 10; ++f) {
    CHECK(track->frames[f].person.has_value() == (f > 2 && f != 7));
  }
  REQUIRE_FALSE(track->notes.empty());
  CHECK(track->notes[0] ==
        "in 4 of 10 frames the estimator had the golfer upside down: they were left out");
}

TEST_CASE("a film that is upside down all through is an error") {
  const std::vector<People> frames(10, People{upside_down(figure())});
  const auto track = pose::follow_golfer(film_of(frames));
  REQUIRE_FALSE(track);
  CHECK(track.error().fault == Fault::not_a_film);
  CHECK(to_string(track.error()) ==
        "the estimator has the golfer upside down all through the face-on film (film in better "
        "light against a plain background and read the film again)");
}

TEST_CASE("a bystander does not take the place of a golfer who is upside down") {
  const test::Placed bystander{900, 1300, 400};
  std::vector<People> frames(10, People{upside_down(figure()), figure(bystander)});
  CHECK_FALSE(pose::follow_golfer(film_of(frames)));
  frames[9] = {figure(bystander), figure()};
  const auto track = pose::follow_golfer(film_of(frames));
  REQUIRE(track);
  CHECK_FALSE(track->frames[8].person);
  CHECK(test::x_of(track->frames[9], centre(Joint::nose)) == 500);
}

TEST_CASE("a head below the hips is upside down even with the feet on the ground") {
  auto person = figure();
  for (const LandmarkId id : {centre(Joint::nose), lead(Joint::ear), trail(Joint::ear)}) {
    person.image[id]->at.y_px += 400;
  }
  const auto track = pose::follow_golfer(film_of({{figure()}, {person}, {figure()}}));
  REQUIRE(track);
  CHECK_FALSE(track->frames[1].person);
}

TEST_CASE("without a head, or without hips, the rest tells") {
  auto headless = upside_down(figure()), hipless = upside_down(figure());
  for (const LandmarkId id : {centre(Joint::nose), lead(Joint::ear), trail(Joint::ear)})
    headless.image[id].reset();
  for (const LandmarkId id : {lead(Joint::hip), trail(Joint::hip)}) hipless.image[id].reset();
  const auto track = pose::follow_golfer(film_of({{headless}, {hipless}, {figure()}}));
  REQUIRE(track);
  CHECK_FALSE(track->frames[0].person);
  CHECK_FALSE(track->frames[1].person);
  CHECK(track->frames[2].person);
}

}  // namespace
}  // namespace rangecheck
