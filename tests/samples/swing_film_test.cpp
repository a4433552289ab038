// SPDX-License-Identifier: MIT
// The films of made-up swings: clock, detector and what the options ask for.
#include <algorithm>
#include <cstring>

#include "close.hpp"
#include "generator/swing.hpp"

namespace rangecheck::samples {
namespace {

SwingOptions usual(double rate_hz = 60) {
  SwingOptions options;
  options.rate_hz = rate_hz;
  options.base.detector.outlier_chance = 0;
  return options;
}

bool same(const FilmedSwing& one, const FilmedSwing& other) {
  if (one.number != other.number || one.time_s != other.time_s) return false;
  for (std::size_t i = 0; i < one.frames.size(); ++i) {
    for (std::size_t k = 0; k < landmark_count; ++k) {
      const auto id = landmark_at(k);
      const auto &a = one.frames[i].image[id], &b = other.frames[i].image[id];
      if (a.has_value() != b.has_value()) return false;
      if (a && (a->at_px != b->at_px || a->confidence != b->confidence)) return false;
      if (one.truth[i][id] != other.truth[i][id]) return false;
    }
  }
  return true;
}

TEST_CASE("the same seed draws the same films, another one others") {
  const DrawnSwing one = draw_swing(3, usual()), again = draw_swing(3, usual());
  CHECK(same(one.films[0], again.films[0]));
  CHECK(same(one.films[1], again.films[1]));
  CHECK_FALSE(same(one.films[0], draw_swing(4, usual()).films[0]));
}

TEST_CASE("an even film counts its frames and holds all positions") {
  for (const double rate_hz : {24.0, 30.0, 120.0, 240.0}) {
    const DrawnSwing drawn = draw_swing(5, usual(rate_hz));
    for (const auto& film : drawn.films) {
      REQUIRE(film.frames.size() == film.number.size());
      REQUIRE(film.frames.size() == film.truth.size());
      for (std::size_t i = 0; i < film.number.size(); ++i) {
        REQUIRE(film.number[i] == i);
        REQUIRE(std::abs(film.time_s[i] - double(i) / rate_hz) < 1e-9);
      }
      for (const auto position : all_positions) {
        CAPTURE(id_of(position));
        REQUIRE(film.event_s.has(position));
        CHECK(*film.event_s[position] < film.time_s.back());
        REQUIRE(film.at_event.has(position));
      }
      CHECK(*film.event_s[Position::address] >= 0.4);
      CHECK(film.time_s.back() - *film.event_s[Position::finish] > 0.2);
    }
  }
}

TEST_CASE("the truth at an event lies between the frames around it") {
  const DrawnSwing drawn = draw_swing(6, usual(240));
  for (const auto& film : drawn.films) {
    for (const auto position : all_positions) {
      const double time_s = *film.event_s[position];
      const auto after = std::upper_bound(film.time_s.begin(), film.time_s.end(), time_s);
      const auto i = static_cast<std::size_t>(after - film.time_s.begin());
      const double share = (time_s - film.time_s[i - 1]) / (film.time_s[i] - film.time_s[i - 1]);
      for (const auto id : {lead(Joint::knee), trail(Joint::wrist), centre(Joint::neck)}) {
        const Eigen::Vector3d between =
            *film.truth[i - 1][id] + share * (*film.truth[i][id] - *film.truth[i - 1][id]);
        CHECK((between - *film.at_event[position]->operator[](id)).norm() < 0.003);
      }
    }
  }
}

TEST_CASE("he stands still before the swing, but for a few millimetres") {
  const DrawnSwing drawn = draw_swing(7, usual());
  const auto& film = drawn.films[0];
  for (std::size_t i = 0; film.time_s[i] < *film.event_s[Position::address]; ++i) {
    for (const auto id : {lead(Joint::wrist), centre(Joint::neck), lead(Joint::hip)}) {
      REQUIRE((*film.truth[i][id] - *film.at_event[Position::address]->operator[](id)).norm() <
              0.02);
    }
  }
}

TEST_CASE("dropped, repeated and uneven frames") {
  SwingOptions options = usual();
  SUBCASE("dropped") {
    options.dropped_chance = 0.2;
    const DrawnSwing drawn = draw_swing(8, options);
    const auto& film = drawn.films[0];
    CHECK(film.number.front() == 0);
    const double there = double(film.number.size()) / double(film.number.back() + 1);
    CHECK_CLOSE(there, 0.8, 0.1);
    for (std::size_t i = 0; i < film.number.size(); ++i) {
      REQUIRE(std::abs(film.time_s[i] - double(film.number[i]) / 60) < 1e-9);
    }
  }
  SUBCASE("repeated") {
    options.repeated_chance = 0.2;
    const DrawnSwing drawn = draw_swing(8, options);
    const auto& film = drawn.films[0];
    int repeated = 0;
    for (std::size_t i = 1; i < film.frames.size(); ++i) {
      repeated += film.frames[i].image[lead(Joint::hip)]->at_px ==
                  film.frames[i - 1].image[lead(Joint::hip)]->at_px;
    }
    CHECK_CLOSE(double(repeated) / double(film.frames.size()), 0.2, 0.1);
  }
  SUBCASE("uneven") {
    options.uneven_s = 0.002;
    const DrawnSwing drawn = draw_swing(8, options);
    const auto& film = drawn.films[0];
    double squares = 0;
    for (std::size_t i = 1; i < film.time_s.size(); ++i) {
      REQUIRE(film.time_s[i] > film.time_s[i - 1]);
      const double off_s = film.time_s[i] - double(film.number[i]) / 60;
      squares += off_s * off_s / double(film.time_s.size());
    }
    CHECK_CLOSE(std::sqrt(squares), 0.002, 0.0005);
  }
}

TEST_CASE("trimmed films") {
  SwingOptions options = usual();
  SUBCASE("at the start") {
    options.trimmed_start = true;
    const DrawnSwing drawn = draw_swing(9, options);
    const auto& film = drawn.films[0];
    CHECK_FALSE(film.event_s.has(Position::address));
    CHECK(film.event_s.has(Position::top));
    CHECK(film.event_s.has(Position::finish));
  }
  SUBCASE("at the end") {
    options.trimmed_end = true;
    const DrawnSwing drawn = draw_swing(9, options);
    const auto& film = drawn.films[0];
    CHECK(film.event_s.has(Position::impact));
    CHECK_FALSE(film.event_s.has(Position::finish));
    CHECK(film.time_s.back() - *film.event_s[Position::impact] < 0.16);
  }
}

TEST_CASE("a practice swing comes before, at half the speed, and then he stands anew") {
  SwingOptions options = usual();
  const DrawnSwing without = draw_swing(10, options);
  options.practice_swing = true;
  options.waggle = true;
  const DrawnSwing drawn = draw_swing(10, options);
  const auto& film = drawn.films[0];
  CHECK(*film.event_s[Position::address] - *without.films[0].event_s[Position::address] > 4);
  // Hands' highest place before the address: that of a swing, not of a waggle.
  double highest_m = 0;
  for (std::size_t i = 0; film.time_s[i] < *film.event_s[Position::address]; ++i) {
    highest_m = std::max(highest_m, film.truth[i][centre(Joint::hands_mid)]->y());
  }
  CHECK(highest_m > film.at_event[Position::top]->operator[](centre(Joint::hands_mid))->y() - 0.1);
}

TEST_CASE("two cameras at one swing see the same motion, from moments of their own") {
  SwingOptions options = usual();
  options.base.same_swing = true;
  const DrawnSwing drawn = draw_swing(11, options);
  const auto &one = drawn.films[0], &other = drawn.films[1];
  const double offset_s = *one.event_s[Position::top] - *other.event_s[Position::top];
  CHECK(offset_s != 0);
  for (const auto position : all_positions) {
    CHECK_CLOSE(*one.event_s[position] - *other.event_s[position], offset_s, 1e-9);
    for (std::size_t i = 0; i < landmark_count; ++i) {
      const auto id = landmark_at(i);
      REQUIRE((*one.at_event[position])[id] == (*other.at_event[position])[id]);
      REQUIRE((*one.at_event[position])[id] == (*drawn.mean_at_event[position])[id]);
    }
  }
}

TEST_CASE("two takes lie on either side of the mean") {
  const DrawnSwing drawn = draw_swing(12, usual());
  for (const auto position : {Position::address, Position::top, Position::impact}) {
    for (const auto id : {lead(Joint::hip), trail(Joint::shoulder), lead(Joint::knee)}) {
      const Eigen::Vector3d one = *drawn.films[0].at_event[position]->operator[](id);
      const Eigen::Vector3d other = *drawn.films[1].at_event[position]->operator[](id);
      const Eigen::Vector3d mean = *drawn.mean_at_event[position]->operator[](id);
      CHECK(one != other);
      CHECK((one - other).norm() < 0.12);
      CHECK(((one + other) / 2 - mean).norm() < 0.02);
    }
  }
}

TEST_CASE("without errors of the detector its points are the camera's picture of the truth") {
  SwingOptions options = usual();
  options.base.detector.bias_level = 0;
  options.base.detector.jitter_mm = {0, 0};
  const DrawnSwing drawn = draw_swing(13, options);
  for (const auto& film : drawn.films) {
    for (std::size_t i = 0; i < film.frames.size(); ++i) {
      for (const auto id : {lead(Joint::knee), centre(Joint::nose), trail(Joint::wrist)}) {
        const auto& seen = film.frames[i].image[id];
        REQUIRE(seen);
        REQUIRE((seen->at_px - film.camera.project(*film.truth[i][id])).norm() < 1e-6);
      }
    }
  }
}

/// Root mean square distance of a point from where it is, millimetres on the body.
double error_mm(const FilmedSwing& film, LandmarkId id, double from_s, double to_s) {
  double squares = 0;
  int count = 0;
  for (std::size_t i = 0; i < film.frames.size(); ++i) {
    const auto& seen = film.frames[i].image[id];
    if (!seen || film.time_s[i] < from_s || film.time_s[i] > to_s) continue;
    const Eigen::Vector2d off = seen->at_px - film.camera.project(*film.truth[i][id]);
    const double metre_px = film.camera.focal_px / film.camera.seen(*film.truth[i][id]).z();
    squares += off.squaredNorm() / (metre_px * metre_px);
    ++count;
  }
  return count ? 1000 * std::sqrt(squares / count) : 0;
}

TEST_CASE("errors of the detector are of the sizes seen on rendered swings") {
  SwingOptions options = usual();
  options.base.detector.skeleton = Skeleton::points_33;
  double knee = 0, wrist_at_top = 0, far_wrist = 0;
  constexpr int golfers = 12;
  for (std::uint64_t seed = 1; seed <= golfers; ++seed) {
    const DrawnSwing drawn = draw_swing(seed, options);
    const auto &front = drawn.films[0], &side = drawn.films[1];
    knee += error_mm(front, trail(Joint::knee), 0, 9) / golfers;
    const double top_s = *front.event_s[Position::top];
    wrist_at_top += error_mm(front, trail(Joint::wrist), top_s - 0.1, top_s + 0.05) / golfers;
    far_wrist += error_mm(side, lead(Joint::wrist), *side.event_s[Position::top] - 0.3,
                          *side.event_s[Position::finish]) /
                 golfers;
  }
  CHECK(knee > 5);
  CHECK(knee < 25);
  CHECK(wrist_at_top > 15);
  CHECK(wrist_at_top < 100);
  CHECK(far_wrist > 60);
  CHECK(far_wrist < 250);
}

TEST_CASE("the club is seen but for when it is a blur, the ball until it is hit") {
  SwingOptions options = usual(120);
  options.club = true;
  const DrawnSwing drawn = draw_swing(14, options);
  const auto& film = drawn.films[0];
  int lost = 0;
  for (std::size_t i = 0; i < film.frames.size(); ++i) {
    const double after_s = film.time_s[i] - *film.event_s[Position::impact];
    const bool ball = film.frames[i].image.has(centre(Joint::ball));
    if (after_s < -0.2) REQUIRE(ball);
    if (after_s > 0.001) REQUIRE_FALSE(ball);
    lost += std::abs(after_s) < 0.05 && !film.frames[i].image.has(centre(Joint::hosel));
  }
  CHECK(lost > 0);
  CHECK(error_mm(film, centre(Joint::grip_end), 0, *film.event_s[Position::address]) > 3);
  CHECK(error_mm(film, centre(Joint::grip_end), 0, *film.event_s[Position::address]) < 40);
}

TEST_CASE("a wrist is missing for a few frames now and then, but not in the 33-point form") {
  SwingOptions options = usual(120);
  options.base.detector.outlier_chance = 1;
  const auto missing = [&](Skeleton skeleton) {
    options.base.detector.skeleton = skeleton;
    int count = 0;
    const DrawnSwing drawn = draw_swing(15, options);
    for (const auto& frame : drawn.films[0].frames) {
      count += !frame.image.has(lead(Joint::wrist));
    }
    return count;
  };
  CHECK(missing(Skeleton::all) > 0);
  CHECK(missing(Skeleton::points_33) == 0);
}

}  // namespace
}  // namespace rangecheck::samples
