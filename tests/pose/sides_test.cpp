// SPDX-License-Identifier: MIT
#include "pose/figure.hpp"
#include "said.hpp"

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

/// Pairs as `figure()` has them, in the picture and in space. Where a front was taken for a back,
/// nothing is left in space.
void check_right(const pose::TrackFrame& frame, bool front_for_back = false) {
  const auto right = figure();
  for (const auto& [joint, aside, up] : test::proportions) {
    if (!is_paired(joint)) continue;
    for (const LandmarkId id : {lead(joint), trail(joint)}) {
      CHECK(x_of(frame, id) == right.image[id]->at.x_px);
      CHECK(frame.person->space.has(id) != front_for_back);
      if (!front_for_back) CHECK(frame.person->space[id]->x_m == right.space[id]->x_m);
    }
  }
  CHECK(x_of(frame, centre(Joint::nose)) == right.image[centre(Joint::nose)]->at.x_px);
}

TEST_CASE("a face-on film with every pair swapped is put right") {
  const std::vector<People> frames(6, People{with_sides_swapped(figure())});
  const auto track = pose::follow_golfer(film_of(frames));
  REQUIRE(track);
  for (const auto& frame : track->frames) check_right(frame, true);
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
  for (std::size_t f = 0; f < track->frames.size(); ++f)
    check_right(track->frames[f], f == 1 || f == 5 || f == 6);
  CHECK(track->sides_exchanged);
  CHECK(in_english(track->notes[0]).substr(0, 16) == "in 3 of 8 frames");
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
  REQUIRE(track->notes.size() == 1);
  CHECK(track->notes[0] ==
        "whether the golfer's front or back was filmed could not be told without feet or a swing: "
        "left and right were taken as they came");
}

TEST_CASE("a golfer who turns through the ball, hips past square, is not taken for swapped") {
  std::vector<People> frames;
  for (int f = 0; f <= 20; ++f) {
    auto person = figure();
    // From a hip on either side to the trail hip a hand's breadth nearer the target.
    person.image[lead(Joint::hip)]->at.x_px -= 4.0 * f;
    person.image[trail(Joint::hip)]->at.x_px += 4.0 * f;
    frames.push_back({person});
  }
  const auto track = pose::follow_golfer(film_of(frames));
  REQUIRE(track);
  CHECK_FALSE(track->sides_exchanged);
  CHECK(track->notes.empty());
  for (std::size_t f = 0; f < frames.size(); ++f)
    CHECK(x_of(track->frames[f], lead(Joint::hip)) ==
          frames[f][0].image[lead(Joint::hip)]->at.x_px);
}

/// Exchanges the two points of one joint.
void exchange(intake::Person& person, Joint joint) {
  std::swap(person.image[lead(joint)], person.image[trail(joint)]);
  std::swap(person.space[lead(joint)], person.space[trail(joint)]);
}

TEST_CASE(
    "knees that come exchanged in some frames or in all are put right, their depth with them") {
  for (const std::size_t every : {1U, 2U, 3U}) {
    std::vector<People> frames(12, People{figure()});
    for (std::size_t f = every > 1; f < frames.size(); f += every)
      exchange(frames[f][0], Joint::knee);
    const auto track = pose::follow_golfer(film_of(frames));
    REQUIRE(track);
    for (const auto& frame : track->frames) check_right(frame);
    CHECK_FALSE(track->sides_exchanged);
    REQUIRE(track->notes.size() == 1);
    CHECK(track->notes[0] ==
          "in " + std::to_string(12 / every) +
              " of 12 frames the estimator had exchanged left and right (knees): they were put "
              "right");
  }
}

TEST_CASE("legs that come exchanged all through the film are put right") {
  std::vector<People> frames(5, People{figure()});
  for (auto& people : frames)
    for (const Joint joint : {Joint::hip, Joint::knee, Joint::ankle, Joint::heel, Joint::big_toe})
      exchange(people[0], joint);
  const auto track = pose::follow_golfer(film_of(frames));
  REQUIRE(track);
  for (const auto& frame : track->frames) check_right(frame);
  REQUIRE(track->notes.size() == 1);
  CHECK(in_english(track->notes[0]).find("(hips, knees, ankles, heels and toes)") !=
        std::string::npos);
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
