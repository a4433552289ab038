// SPDX-License-Identifier: MIT
#include "pose/figure.hpp"

namespace rangecheck {
namespace {

using test::figure;
using test::film_of;
using test::People;
using test::with_sides_swapped;
using test::x_of;

/// The camera stands behind the golfer: lead is on the left of the picture, toes are farther away.
intake::Person from_behind() {
  auto person = with_sides_swapped(figure());
  for (const Side side : {Side::lead, Side::trail}) {
    std::swap(person.image[{side, Joint::big_toe}]->at.y_px,
              person.image[{side, Joint::heel}]->at.y_px);
  }
  return person;
}

/// Pairs as `figure()` has them, in the picture and in space.
void check_right(const pose::TrackFrame& frame) {
  const auto right = figure();
  for (const auto& [joint, aside, up] : test::proportions) {
    if (!is_paired(joint)) continue;
    for (const LandmarkId id : {lead(joint), trail(joint)}) {
      CHECK(x_of(frame, id) == right.image[id]->at.x_px);
      CHECK(frame.person->space[id]->x_m == right.space[id]->x_m);
    }
  }
  CHECK(x_of(frame, centre(Joint::nose)) == right.image[centre(Joint::nose)]->at.x_px);
}

TEST_CASE("a face-on film with every pair swapped is put right") {
  const std::vector<People> frames(6, People{with_sides_swapped(figure())});
  const auto track = pose::follow_golfer(film_of(frames));
  REQUIRE(track);
  for (const auto& frame : track->frames) check_right(frame);
  CHECK(track->sides_exchanged);
  REQUIRE(track->notes.size() == 1);
  CHECK(track->notes[0] ==
        "in 6 of 6 frames the estimator had taken the golfer's front for the back: left and right "
        "were put right");
}

TEST_CASE("swapped frames among right ones are put right, the others stay") {
  std::vector<People> frames(8, People{figure()});
  for (const std::size_t f : {1U, 5U, 6U}) frames[f] = {with_sides_swapped(figure())};
  const auto track = pose::follow_golfer(film_of(frames));
  REQUIRE(track);
  for (const auto& frame : track->frames) check_right(frame);
  CHECK(track->sides_exchanged);
  CHECK(track->notes[0].substr(0, 16) == "in 3 of 8 frames");
}

TEST_CASE("a right film stays as it is") {
  const std::vector<People> frames(4, People{figure()});
  const auto track = pose::follow_golfer(film_of(frames));
  REQUIRE(track);
  for (const auto& frame : track->frames) check_right(frame);
  CHECK_FALSE(track->sides_exchanged);
  CHECK(track->notes.empty());
}

TEST_CASE("a film from behind the golfer stays as it is, also when the trail heel lifts") {
  std::vector<People> frames(8, People{from_behind()});
  for (const std::size_t f : {6U, 7U}) {
    frames[f][0].image[trail(Joint::heel)]->at.y_px -= 80;
    REQUIRE(frames[f][0].image[trail(Joint::big_toe)]->at.y_px >
            frames[f][0].image[trail(Joint::heel)]->at.y_px + 50);
  }
  const auto track = pose::follow_golfer(film_of(frames));
  REQUIRE(track);
  const auto behind = from_behind();
  for (const auto& frame : track->frames) {
    CHECK(x_of(frame, lead(Joint::hip)) == behind.image[lead(Joint::hip)]->at.x_px);
    CHECK(x_of(frame, trail(Joint::hip)) == behind.image[trail(Joint::hip)]->at.x_px);
  }
  CHECK_FALSE(track->sides_exchanged);
  CHECK(track->notes.empty());
}

TEST_CASE("without feet front and back can't be told apart and nothing is exchanged") {
  auto person = with_sides_swapped(figure());
  for (const Joint joint : {Joint::heel, Joint::big_toe}) {
    person.image[lead(joint)].reset();
    person.image[trail(joint)].reset();
  }
  const auto track = pose::follow_golfer(film_of({{person}, {person}}));
  REQUIRE(track);
  CHECK_FALSE(track->sides_exchanged);
  CHECK(x_of(track->frames[0], lead(Joint::knee)) == person.image[lead(Joint::knee)]->at.x_px);
}

TEST_CASE("a golfer turned through the ball, hips past square, is not taken for swapped") {
  auto person = figure();
  person.image[lead(Joint::hip)]->at.x_px -= 120;
  person.image[trail(Joint::hip)]->at.x_px += 120;
  const auto track = pose::follow_golfer(film_of({{figure()}, {person}}));
  REQUIRE(track);
  CHECK_FALSE(track->sides_exchanged);
  CHECK(x_of(track->frames[1], lead(Joint::hip)) == person.image[lead(Joint::hip)]->at.x_px);
}

TEST_CASE("down the line there is no right order along the picture") {
  const auto swapped = with_sides_swapped(figure());
  const auto track =
      pose::follow_golfer(film_of({{swapped}, {swapped}}, intake::View::down_the_line));
  REQUIRE(track);
  CHECK_FALSE(track->sides_exchanged);
  CHECK(x_of(track->frames[0], lead(Joint::hip)) == swapped.image[lead(Joint::hip)]->at.x_px);
}

}  // namespace
}  // namespace rangecheck
