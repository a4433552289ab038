// SPDX-License-Identifier: MIT
// Several people in frame, drawn by hand.
#include <cmath>
#include <functional>

#include "pose/figure.hpp"
#include "said.hpp"

namespace rangecheck {
namespace {

using test::figure;
using test::film_of;
using test::People;
using test::Placed;
using test::x_of;

constexpr Placed golfer{500, 1500, 700};

/// The golfer with both hands moved about the hips, over height: `along` to the target, `up`.
intake::Person with_hands(Placed placed, double along, double up) {
  auto person = figure(placed);
  for (const Side side : {Side::lead, Side::trail}) {
    auto& wrist = person.image[{side, Joint::wrist}]->at;
    wrist.x_px += along * placed.height_px;
    wrist.y_px -= up * placed.height_px;
  }
  return person;
}

/// One second of a swing at 60 Hz: back and up, down, through.
intake::Person swinging(Placed placed, int frame) {
  const double turn = frame < 15 ? 0 : std::sin(2 * 3.14159265 * (frame - 15) / 45.0);
  return with_hands(placed, -0.25 * turn, 0.3 * turn * turn);
}

intake::FilmedView stamped(const std::vector<People>& frames) {
  auto film = film_of(frames);
  for (std::size_t f = 0; f < frames.size(); ++f)
    film.film.frames[f].time = Duration::seconds(static_cast<double>(f) / 60);
  return film;
}

std::vector<People> swing_with(const std::function<intake::Person(int)>& other) {
  std::vector<People> frames;
  for (int f = 0; f < 60; ++f) frames.push_back({other(f), swinging(golfer, f)});
  return frames;
}

void check_follows(const Result<pose::Track>& track, double nose_x_px) {
  REQUIRE(track);
  for (const auto& frame : track->frames)
    if (frame.person) CHECK(std::abs(x_of(frame, centre(Joint::nose)) - nose_x_px) < 20);
}

TEST_CASE("who swings is graded, and not someone larger who stands in front") {
  constexpr Placed coach{930, 1700, 1000};
  const auto track = pose::follow_golfer(stamped(swing_with([&](int) { return figure(coach); })));
  check_follows(track, golfer.x_px);
  CHECK(track->notes[0] == "2 people: the one who swings was graded (very likely)");
  CHECK(track->certainty > 0.95);
}

TEST_CASE("two who swing side by side are an error") {
  constexpr Placed left{270, 1500, 700}, right{810, 1500, 700};
  std::vector<People> frames;
  for (int f = 0; f < 60; ++f)
    frames.push_back({swinging(left, f), swinging(right, std::max(0, f - 8))});
  const auto track = pose::follow_golfer(stamped(frames));
  REQUIRE_FALSE(track);
  CHECK(track.error().fault == Fault::disagreement);
  CHECK(track.error().remedy == "film the golfer alone, or nearer than anyone else");
}

TEST_CASE("a reflection is not followed, and is called what it is") {
  constexpr Placed mirrored{830, 1420, 480};
  const auto track = pose::follow_golfer(stamped(swing_with([&](int f) {
    auto person = test::with_sides_swapped(swinging(mirrored, f));
    for (auto& point : person.image.values())
      if (point) point->confidence = 0.6;
    return person;
  })));
  check_follows(track, golfer.x_px);
  CHECK(in_english(track->notes[0])
            .ends_with("; another moves in step, like a reflection in a window or a mirror"));
}

TEST_CASE("an identity that jumps across the picture is not followed") {
  constexpr Placed other{850, 1450, 500};
  std::vector<People> frames;
  for (int f = 0; f < 60; ++f) {
    People people{swinging(golfer, f), figure(other)};
    people[0].track = f < 30 ? 4 : 9;
    people[1].track = f < 30 ? 9 : 4;
    frames.push_back(std::move(people));
  }
  const auto track = pose::follow_golfer(stamped(frames));
  check_follows(track, golfer.x_px);
  for (const auto& frame : track->frames) CHECK(frame.person);
}

TEST_CASE("of one person found twice in a frame the surer is taken, and no mean of both") {
  std::vector<People> frames(10, People{figure(golfer)});
  auto again = figure({503, 1500, 702});
  for (auto& point : again.image.values())
    if (point) point->confidence = 0.95;
  frames[4].push_back(again);
  frames[6].insert(frames[6].begin(), figure({498, 1500, 698}));
  for (auto& point : frames[6].front().image.values())
    if (point) point->confidence = 0.5;
  const auto track = pose::follow_golfer(film_of(frames));
  REQUIRE(track);
  CHECK(x_of(track->frames[4], centre(Joint::nose)) == 503);
  CHECK(x_of(track->frames[6], centre(Joint::nose)) == 500);
  CHECK(track->notes.empty());
}

TEST_CASE("an arm of someone else's is not kept on the golfer") {
  constexpr Placed behind{770, 1450, 620};
  std::vector<People> frames;
  for (int f = 0; f < 60; ++f) frames.push_back({swinging(golfer, f), figure(behind)});
  for (const std::size_t f : {6U, 7U}) {
    for (const Joint joint : {Joint::elbow, Joint::wrist})
      frames[f][0].image[lead(joint)] = frames[f][1].image[lead(joint)];
  }
  const auto track = pose::follow_golfer(stamped(frames));
  REQUIRE(track);
  for (const std::size_t f : {6U, 7U}) {
    REQUIRE(track->frames[f].person);
    CHECK_FALSE(track->frames[f].person->image.has(lead(Joint::elbow)));
    CHECK_FALSE(track->frames[f].person->image.has(lead(Joint::wrist)));
    CHECK(track->frames[f].person->image.has(trail(Joint::knee)));
  }
  CHECK(track->frames[2].person->image.has(lead(Joint::wrist)));
}

TEST_CASE("someone with the legs of one and the rest of another is left out") {
  constexpr Placed behind{770, 1450, 620};
  std::vector<People> frames;
  for (int f = 0; f < 60; ++f) frames.push_back({swinging(golfer, f), figure(behind)});
  auto& mixed = frames[8][0];
  const auto other = figure(behind);
  for (const auto& [joint, aside, up] : test::proportions) {
    if (up < 0.5) continue;
    if (!is_paired(joint)) mixed.image[centre(joint)] = other.image[centre(joint)];
    if (is_paired(joint)) mixed.image[lead(joint)] = other.image[lead(joint)];
    if (is_paired(joint)) mixed.image[trail(joint)] = other.image[trail(joint)];
  }
  frames[8].pop_back();
  const auto track = pose::follow_golfer(stamped(frames));
  check_follows(track, golfer.x_px);
  CHECK_FALSE(track->frames[8].person);
  CHECK(track->frames[7].person);
  CHECK(track->frames[9].person);
}

TEST_CASE("a few points of nobody, and a body in one frame only, change nothing") {
  std::vector<People> frames(10, People{figure(golfer)});
  intake::Person ghost;
  for (const Joint joint : {Joint::wrist, Joint::knee}) {
    ghost.image[lead(joint)] = intake::Sighting{{510, 1200}, 0.3};
    ghost.image[trail(joint)] = intake::Sighting{{490, 1210}, 0.3};
  }
  frames[3].insert(frames[3].begin(), ghost);
  frames[5].insert(frames[5].begin(), figure({900, 900, 200}));
  const auto track = pose::follow_golfer(film_of(frames));
  check_follows(track, golfer.x_px);
  for (const auto& frame : track->frames) CHECK(frame.person);
  CHECK(track->notes.empty());
}

}  // namespace
}  // namespace rangecheck
