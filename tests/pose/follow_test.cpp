// SPDX-License-Identifier: MIT
#include "pose/figure.hpp"
#include "said.hpp"

namespace rangecheck {
namespace {

using test::figure;
using test::film_of;
using test::People;
using test::x_of;

constexpr test::Placed golfer{500, 1500, 700};
constexpr test::Placed bystander{900, 1300, 400};

std::string error_of(const intake::FilmedView& film) {
  const auto track = pose::follow_golfer(film);
  REQUIRE_FALSE(track);
  return to_string(track.error());
}

/// Every landmark of the frame is the golfer's own.
void check_is(const pose::TrackFrame& frame, test::Placed placed) {
  REQUIRE(frame.person);
  const auto whole = figure(placed);
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const LandmarkId id = landmark_at(i);
    REQUIRE(frame.person->image.has(id) == whole.image.has(id));
    if (!whole.image.has(id)) continue;
    CHECK(frame.person->image[id]->at.x_px == whole.image[id]->at.x_px);
    CHECK(frame.person->image[id]->at.y_px == whole.image[id]->at.y_px);
  }
}

TEST_CASE("a golfer alone is followed and nothing is noted") {
  const auto track = pose::follow_golfer(film_of({{figure(golfer)}, {figure(golfer)}}));
  REQUIRE(track);
  REQUIRE(track->frames.size() == 2);
  for (const auto& frame : track->frames) check_is(frame, golfer);
  CHECK(track->people_seen == 1);
  CHECK_FALSE(track->sides_exchanged);
  CHECK(track->notes.empty());
}

TEST_CASE("people listed in another order every frame are never mixed") {
  std::vector<People> frames;
  std::vector<test::Placed> expected;
  for (int i = 0; i < 12; ++i) {
    // The golfer sways a little; the bystander walks up to him from behind.
    const test::Placed swaying{golfer.x_px + 5.0 * (i % 3), golfer.feet_px, golfer.height_px};
    const test::Placed walking{bystander.x_px - 12.0 * i, bystander.feet_px, bystander.height_px};
    expected.push_back(swaying);
    if (i % 2 == 0) {
      frames.push_back({figure(swaying), figure(walking)});
    } else {
      frames.push_back({figure(walking), figure(swaying)});
    }
  }
  const auto track = pose::follow_golfer(film_of(frames));
  REQUIRE(track);
  for (std::size_t f = 0; f < frames.size(); ++f) check_is(track->frames[f], expected[f]);
  CHECK(track->people_seen == 2);
  REQUIRE_FALSE(track->notes.empty());
  CHECK(track->notes[0] == "2 people: the one who stands at address was graded (nearly certain)");
}

TEST_CASE("a large bystander of a few frames is not the golfer") {
  constexpr test::Placed near{950, 1800, 1200};
  std::vector<People> frames(10, People{figure(golfer)});
  frames[4] = {figure(near), figure(golfer)};
  frames[5] = {figure(golfer), figure(near)};
  const auto track = pose::follow_golfer(film_of(frames));
  REQUIRE(track);
  for (const auto& frame : track->frames) check_is(frame, golfer);
  CHECK(track->people_seen == 2);
}

TEST_CASE("someone smaller just behind a golfer who is lost for a frame does not stand in") {
  constexpr test::Placed behind{560, 1300, 380};
  std::vector<People> frames(8, People{figure(golfer)});
  frames[3] = {figure(behind)};
  const auto track = pose::follow_golfer(film_of(frames));
  REQUIRE(track);
  CHECK_FALSE(track->frames[3].person);
  for (const std::size_t f : {0U, 2U, 4U, 7U}) check_is(track->frames[f], golfer);
}

TEST_CASE("two people who are as large and stay as long are an error") {
  const test::Placed one{250, golfer.feet_px, golfer.height_px},
      other{830, golfer.feet_px, golfer.height_px};
  const std::vector<People> frames(6, People{figure(one), figure(other)});
  const auto track = pose::follow_golfer(film_of(frames));
  REQUIRE_FALSE(track);
  CHECK(track.error().fault == Fault::disagreement);
  CHECK(error_of(film_of(frames)) ==
        "two people in the face-on film are as likely to be the golfer (film the golfer alone, or "
        "nearer than anyone else)");
}

TEST_CASE("a film cut from one place to another is not called two people") {
  const test::Placed one{250, golfer.feet_px, golfer.height_px},
      other{830, golfer.feet_px, golfer.height_px};
  std::vector<People> frames(6, People{figure(one)});
  frames.insert(frames.end(), 6, People{figure(other)});
  CHECK(error_of(film_of(frames)) ==
        "the face-on film jumps from one place to another as if there were two golfers (film one "
        "swing without a cut, with the whole body in the picture)");
}

TEST_CASE("no people, or only parts of some, are an error") {
  const std::string nobody =
      "no person in the down-the-line film (film the whole body against a plain background)";
  const auto dtl = intake::View::down_the_line;
  CHECK(error_of(film_of({}, dtl)) == nobody);
  CHECK(error_of(film_of({{}, {}}, dtl)) == nobody);
  intake::Person hand;
  const auto whole = figure(golfer);
  for (const Joint joint : {Joint::wrist, Joint::elbow}) {
    hand.image[lead(joint)] = whole.image[lead(joint)];
    hand.image[trail(joint)] = whole.image[trail(joint)];
  }
  hand.image[lead(Joint::shoulder)] = whole.image[lead(Joint::shoulder)];
  CHECK(error_of(film_of({{hand}, {hand}}, dtl)) == nobody);
  // One more landmark and it is a body.
  hand.image[trail(Joint::shoulder)] = whole.image[trail(Joint::shoulder)];
  CHECK(pose::follow_golfer(film_of({{hand}, {hand}}, dtl)));
}

TEST_CASE("frames without the golfer keep their place, number and time") {
  auto film = film_of({{figure(golfer)}, {}, {figure(golfer)}, {}});
  for (std::size_t f = 0; f < 4; ++f) {
    film.film.frames[f].number = 10 + 2 * f;
    film.film.frames[f].time = Duration::seconds(0.5 * static_cast<double>(f));
  }
  const auto track = pose::follow_golfer(film);
  REQUIRE(track);
  REQUIRE(track->frames.size() == 4);
  for (std::size_t f = 0; f < 4; ++f) {
    CHECK(track->frames[f].number == 10 + 2 * f);
    CHECK(track->frames[f].time->in_seconds() == 0.5 * static_cast<double>(f));
    CHECK(track->frames[f].person.has_value() == (f % 2 == 0));
  }
}

}  // namespace
}  // namespace rangecheck
