// SPDX-License-Identifier: MIT
// What a file of club and ball points, and clicks, add to a swing whose own films have none.
#include "generator/club_file.hpp"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "generator/swing.hpp"
#include "night.hpp"
#include "said.hpp"

namespace rangecheck::inbox {
namespace {

samples::DrawnSwing a_swing() {
  samples::SwingOptions options;
  options.rate_hz = 60;
  options.club = true;
  options.base.same_swing = true;
  return samples::draw_swing(11, options);
}

std::string stem_of(const samples::FilmedSwing& filmed) {
  return std::string(samples::name_of(filmed.view));
}

samples::Film film_of(const samples::FilmedSwing& filmed, samples::Hand hand) {
  samples::Film film{filmed.camera.width_px, filmed.camera.height_px, 60, hand, {}, filmed.number};
  for (const auto& frame : filmed.frames) film.frames.push_back({frame});
  return film;
}

/// A little before the golfer sets off.
std::size_t frame_at_address(const samples::FilmedSwing& filmed) {
  const double wanted_s = filmed.event_s[Position::address].value() - 0.1;
  return static_cast<std::size_t>(std::ranges::lower_bound(filmed.time_s, wanted_s) -
                                  filmed.time_s.begin());
}

enum class Given { nothing, file, clicks };

/// x and y of a point as a person would click it.
std::string clicked(const samples::Film& film, const samples::DetectedFrame& frame, Joint joint) {
  const auto& point = frame.image[centre(joint)];
  return fmt::format("{}: [{:.0f}, {:.0f}]", key_of(joint),
                     samples::shot_x_px(film, point->at_px.x()), point->at_px.y());
}

report::Graded graded(const samples::DrawnSwing& swing, Given given,
                      samples::Hand hand = samples::Hand::right) {
  const Fixture fixture;
  std::string manifest = fmt::format(
      "student: s-0001\nclub: 7-iron\ngolfer: {{ handedness: {}, stature: {:.0f} cm }}\n"
      "same-swing: true\nviews:\n",
      hand == samples::Hand::right ? "right" : "left", 100 * swing.golfer.body.stature_m);
  for (const auto& filmed : swing.films) {
    const samples::Film film = film_of(filmed, hand);
    const std::string stem = stem_of(filmed);
    fixture.write("inbox/s-1/" + stem + ".json", samples::plain_form(samples::without_club(film)));
    fixture.write("inbox/s-1/" + stem + "-club.json", samples::club_file(film));
    manifest += fmt::format("  - view: {}\n    landmarks: {}.json\n", stem, stem);
    if (given == Given::file) manifest += fmt::format("    club-points: {}-club.json\n", stem);
    if (given == Given::clicks) {
      const std::size_t f = frame_at_address(filmed);
      manifest += fmt::format("    clicks:\n      - {{ frame: {}, {}, {} }}\n", filmed.number[f],
                              clicked(film, filmed.frames[f], Joint::grip_end),
                              clicked(film, filmed.frames[f], Joint::hosel));
    }
  }
  fixture.write("inbox/s-1/submission.yaml", manifest);
  auto night = run_whole(fixture.job());
  REQUIRE(night);
  if (!night->set_aside.empty()) FAIL(to_string(night->set_aside.front().error));
  REQUIRE(night->graded.size() == 1);
  return std::move(night->graded.front());
}

bool is_seen(const report::Graded& graded, std::string_view id,
             Position position = Position::address) {
  return std::ranges::any_of(graded.measured, [&](const auto& each) {
    return each.rule->id == id && each.position == position && !each.not_seen;
  });
}

std::size_t seen_of_club(const report::Graded& graded) {
  return static_cast<std::size_t>(std::ranges::count_if(graded.measured, [](const auto& each) {
    return each.rule->region == measure::Region::club && !each.not_seen;
  }));
}

/// Uncertainty of a position in the face-on film, seconds; nothing when it was not found.
std::optional<double> uncertainty_s(const report::Graded& graded, Position position) {
  for (const auto& each : graded.positions) {
    if (each.view == intake::View::face_on && each.position == position) {
      return each.standard_uncertainty_s;
    }
  }
  return std::nullopt;
}

}  // namespace

TEST_CASE("club file: positions are timed by the club, and the shaft is seen") {
  const auto swing = a_swing();
  const auto without = graded(swing, Given::nothing), with = graded(swing, Given::file);
  CHECK_FALSE(is_seen(without, "shaft-lean"));
  CHECK_FALSE(is_seen(without, "shaft-angle"));
  CHECK(seen_of_club(without) == 0);
  CHECK(is_seen(with, "shaft-lean"));
  CHECK(is_seen(with, "shaft-angle"));
  CHECK(seen_of_club(with) >= 8);
  for (const Position position : {Position::shaft_parallel_back, Position::shaft_parallel_down}) {
    CAPTURE(id_of(position));
    const auto before = uncertainty_s(without, position), after = uncertainty_s(with, position);
    REQUIRE(before);
    REQUIRE(after);
    CHECK(*after < 0.7 * *before);
    const double true_s = swing.films.front().event_s[position].value();
    for (const auto& each : with.positions) {
      if (each.view != intake::View::face_on || each.position != position) continue;
      CHECK(std::abs(each.time_s - true_s) < 3 * each.standard_uncertainty_s);
    }
  }
  CHECK(std::ranges::any_of(with.notes, [](const Message& note) {
    return in_english(note).find("club and ball are from") != std::string::npos;
  }));
}

TEST_CASE("club file: a left-hander's tells the same as a right-hander's") {
  const auto swing = a_swing();
  const auto right = graded(swing, Given::file),
             left = graded(swing, Given::file, samples::Hand::left);
  REQUIRE(right.measured.size() == left.measured.size());
  CHECK(seen_of_club(left) == seen_of_club(right));
  for (std::size_t i = 0; i < right.measured.size(); ++i) {
    const auto &a = right.measured[i], &b = left.measured[i];
    if (a.rule->region != measure::Region::club || a.not_seen || b.not_seen) continue;
    CHECK(std::abs(*a.value - *b.value) < 0.3 * a.standard_uncertainty);
  }
}

TEST_CASE("clicks: a person's marks in one frame at address show the shaft there") {
  const auto with = graded(a_swing(), Given::clicks);
  CHECK(is_seen(with, "shaft-lean"));
  CHECK(is_seen(with, "shaft-angle"));
}

}  // namespace rangecheck::inbox
