// SPDX-License-Identifier: MIT
// Figures of the sample inbox's golfers against the landmark files as they lie there.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "inbox/inbox.hpp"
#include "intake/landmarks.hpp"

namespace rangecheck::inbox {
namespace {

namespace fs = std::filesystem;

const fs::path samples = RANGECHECK_SOURCE_DIR "/samples";

report::Graded graded_of(const std::string& id) {
  static const auto profiles = grade::load_profiles(RANGECHECK_SOURCE_DIR "/profiles");
  const auto roster = intake::read_roster(samples / "roster.csv");
  REQUIRE(roster);
  const auto submission =
      intake::read_submission({.id = id, .files = {}, .folder = samples / "inbox" / id}, *roster);
  REQUIRE(submission);
  auto graded = grade_one(*submission, *profiles);
  REQUIRE(graded);
  return *graded;
}

/// Middle of a point over the film, as the file has it: anatomical left is `lead` here.
intake::ImagePoint in_file(const std::string& id, const std::string& file, LandmarkId landmark) {
  const auto texts = intake::read_landmark_files(samples / "inbox" / id / file, file);
  REQUIRE(texts);
  const auto film = intake::read_landmarks(*texts, {});
  REQUIRE(film);
  std::vector<double> x, y;
  for (const auto& frame : film->frames) {
    if (frame.people.empty() || !frame.people[0].image[landmark]) continue;
    x.push_back(frame.people[0].image[landmark]->at.x_px);
    y.push_back(frame.people[0].image[landmark]->at.y_px);
  }
  REQUIRE_FALSE(x.empty());
  std::ranges::sort(x);
  std::ranges::sort(y);
  return {x[x.size() / 2], y[y.size() / 2]};
}

TEST_CASE(
    "figures: a right-hander's and a left-hander's are as filmed, lead on the target's side") {
  struct Case {
    std::string id;
    bool left_handed;
  };
  for (const auto& [id, left_handed] :
       {Case{"s-0401-7-iron", false}, Case{"s-0403-7-iron", true}}) {
    CAPTURE(id);
    const auto graded = graded_of(id);
    const auto figure =
        std::ranges::find(graded.figures, intake::View::face_on, &report::Figure::view);
    REQUIRE(figure != graded.figures.end());
    CHECK(figure->position == Position::address);
    CHECK(figure->left_handed == left_handed);
    const auto lead_ankle = figure->points[lead(Joint::ankle)];
    const auto trail_ankle = figure->points[trail(Joint::ankle)];
    REQUIRE((lead_ankle && trail_ankle));
    // In front of the golfer the target is to the right, of a left-hander to the left.
    CHECK((lead_ankle->x_px > trail_ankle->x_px) == !left_handed);
    for (const Joint joint : {Joint::ankle, Joint::knee, Joint::hip, Joint::shoulder}) {
      const LandmarkId of_file = left_handed ? trail(joint) : lead(joint);
      const auto there = in_file(id, "face-on.json", of_file);
      const auto here = figure->points[lead(joint)];
      REQUIRE(here);
      // Films of a still golfer, whose points jitter by a pixel or two.
      CHECK(std::hypot(here->x_px - there.x_px, here->y_px - there.y_px) < 4);
    }
  }
}

TEST_CASE("figures: of a swing there is one of every position that a film shows") {
  const auto graded = graded_of("s-0421-7-iron");
  CHECK(graded.figures.size() == 2 * position_count);
  std::size_t later = 0;
  for (const auto& position : graded.positions) {
    const auto found = std::ranges::find_if(graded.figures, [&](const auto& figure) {
      return figure.position == position.position && figure.view == position.view;
    });
    CHECK(found != graded.figures.end());
    later += position.position != Position::address ? 1 : 0;
  }
  CHECK(later == 2 * (position_count - 1));
}

TEST_CASE("figures: points in space alone have no picture to be drawn from") {
  const auto graded = graded_of("s-0426-7-iron");
  CHECK_FALSE(graded.positions.empty());
  CHECK(graded.figures.empty());
}

}  // namespace
}  // namespace rangecheck::inbox
