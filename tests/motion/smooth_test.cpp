// SPDX-License-Identifier: MIT
// Smoothed tracks of hands whose true path is known.
#include "motion/smooth.hpp"

#include <fmt/format.h>

#include <sstream>

#include "generator/swing.hpp"
#include "motion/moving.hpp"
#include "second_route.hpp"

namespace rangecheck {
namespace {

using motion::Clock;
using motion::Instant;
using motion::InstantPoint;
using motion::Series;
using motion::SmoothTrack;
using State = Series::State;

constexpr LandmarkId wrist = lead(Joint::wrist);
/// Pixels a metre of a golfer of 1.75 m who is 700 px high.
constexpr double px_per_m = 400;
/// An estimator's usual jitter, 4 mm.
constexpr double jitter_px = 0.004 * px_per_m;
constexpr double film_s = 3.5, impact_s = 2.15;

struct Hands {
  double x_px, y_px;
};

/// Hands that go 2.6 rad back about the chest and come down through 4.8 rad, on a circle of 0.62 m:
/// fastest at impact_s, 9 m/s.
Hands hands_at_s(double time_s) {
  const auto step = [](double t) { return 1 / (1 + std::exp(-t)); };
  const double turn = -2.6 * step((time_s - 1.3) / 0.12) + 4.8 * step((time_s - impact_s) / 0.0827);
  const double radius_px = 0.62 * px_per_m;
  return {500 + radius_px * std::sin(turn - 0.4), 1000 + radius_px * std::cos(turn - 0.4)};
}

pose::TrackFrame frame_at(double time_s, std::size_t number) {
  auto person = test::figure();
  const Hands hands = hands_at_s(time_s);
  person.image[wrist]->at = {hands.x_px, hands.y_px};
  return {number, Duration::seconds(time_s), std::move(person)};
}

/// `uneven_s` puts each frame's moment off its even one.
pose::Track film_of(double rate_hz, double jitter, std::uint64_t seed = 1, double uneven_s = 0) {
  std::mt19937_64 random(seed);
  std::normal_distribution<double> normal;
  std::uniform_real_distribution<double> off_s(-uneven_s, uneven_s);
  pose::Track track;
  for (std::size_t f = 0; static_cast<double>(f) / rate_hz <= film_s; ++f) {
    const double even_s = static_cast<double>(f) / rate_hz;
    auto& frame = track.frames.emplace_back(frame_at(f == 0 ? 0 : even_s + off_s(random), f));
    for (auto& point : frame.person->image.values()) {
      if (!point) continue;
      point->at.x_px += jitter * normal(random);
      point->at.y_px += jitter * normal(random);
    }
  }
  return track;
}

SmoothTrack smoothed(const pose::Track& track, std::optional<double> rate_hz = {}) {
  const auto clock = motion::clock_of(track, rate_hz);
  REQUIRE(clock);
  return motion::smooth(track, *clock);
}

double off_px(const InstantPoint& point, double time_s) {
  const Hands truth = hands_at_s(time_s);
  return std::hypot(point.at.x_px - truth.x_px, point.at.y_px - truth.y_px);
}

/// Largest distance of the wrist from its true path, anywhere between two moments.
double farthest_m(const SmoothTrack& track, double from_s, double to_s) {
  double out = 0;
  for (double t = from_s; t <= to_s; t += 0.003) {
    const Instant at = track.at(Duration::seconds(t));
    REQUIRE(at.points.has(wrist));
    out = std::max(out, off_px(*at.points[wrist], t) / px_per_m);
  }
  return out;
}

/// Everything within half a second of impact.
double farthest_about_impact_m(const SmoothTrack& track) {
  return farthest_m(track, impact_s - 0.5, impact_s + 0.5);
}

double speed_m_s(const Instant& at) {
  const auto& v = at.points[wrist]->velocity_px_s;
  return std::hypot(v.x_px, v.y_px) / px_per_m;
}

/// Mean over many films of the wrist and its speed: what is off in it is the filter's doing.
struct Mean {
  double farthest_m = 0;  ///< within 0.15 s of impact
  double speed_m_s = 0;   ///< at impact
};

Mean mean_about_impact(double rate_hz, std::uint64_t films) {
  std::vector<SmoothTrack> tracks;
  for (std::uint64_t seed = 1; seed <= films; ++seed)
    tracks.push_back(smoothed(film_of(rate_hz, jitter_px, seed)));
  Mean out;
  const auto share = 1 / static_cast<double>(films);
  for (double t = impact_s - 0.15; t <= impact_s + 0.15; t += 0.005) {
    InstantPoint mean;
    for (const auto& track : tracks) {
      const auto point = *track.at(Duration::seconds(t)).points[wrist];
      mean.at.x_px += share * point.at.x_px;
      mean.at.y_px += share * point.at.y_px;
    }
    out.farthest_m = std::max(out.farthest_m, off_px(mean, t) / px_per_m);
  }
  for (const auto& track : tracks)
    out.speed_m_s += share * speed_m_s(track.at(Duration::seconds(impact_s)));
  return out;
}

TEST_CASE("the filter leaves the hands' path through impact") {
  for (const double rate_hz : {24.0, 30.0, 60.0, 120.0, 240.0}) {
    CAPTURE(rate_hz);
    const Mean mean = mean_about_impact(rate_hz, 30);
    CHECK(mean.farthest_m < 0.008);
    CHECK_CLOSE(mean.speed_m_s, 9, 0.25);
  }
}

/// The true joints of a made-up swing in the picture, with 4 mm of jitter.
pose::Track jittered(const samples::FilmedSwing& film, double px_per_m_there) {
  std::mt19937_64 random(film.frames.size());
  std::normal_distribution<double> normal(0, 0.004 * px_per_m_there);
  pose::Track track;
  for (std::size_t f = 0; f < film.time_s.size(); ++f) {
    intake::Person person;
    for (std::size_t i = 0; i < landmark_count; ++i) {
      const auto& joint = film.truth[f].values()[i];
      if (!joint) continue;
      const auto px = film.camera.project(*joint);
      person.image.values()[i] =
          intake::Sighting{{px.x() + normal(random), px.y() + normal(random)}, 1};
    }
    track.frames.push_back({film.number[f], Duration::seconds(film.time_s[f]), person});
  }
  return track;
}

TEST_CASE("the hands of made-up swings stay on their path about impact") {
  for (const double rate_hz : {30.0, 60.0, 240.0}) {
    double square = 0, count = 0, farthest_m = 0;
    for (std::uint64_t seed = 1; seed <= 6; ++seed) {
      samples::SwingOptions options;
      options.rate_hz = rate_hz;
      for (const auto& film : samples::draw_swing(seed, options).films) {
        const auto& joint = *film.truth[0][wrist];
        const double there =
            (film.camera.project(joint + Eigen::Vector3d(0, 1, 0)) - film.camera.project(joint))
                .norm();
        const auto track = smoothed(jittered(film, there));
        const double impact = *film.event_s[Position::impact];
        for (std::size_t f = 0; f < film.time_s.size(); ++f) {
          if (std::abs(film.time_s[f] - impact) > 0.1) continue;
          const auto at = track.at(Duration::seconds(film.time_s[f])).points[wrist]->at;
          const auto px = film.camera.project(*film.truth[f][wrist]);
          const double off_m = std::hypot(at.x_px - px.x(), at.y_px - px.y()) / there;
          square += off_m * off_m;
          farthest_m = std::max(farthest_m, off_m);
          ++count;
        }
      }
    }
    CAPTURE(rate_hz);
    CHECK(std::sqrt(square / count) < (rate_hz < 60 ? 0.007 : 0.006));
    CHECK(farthest_m < 0.02);
  }
}

TEST_CASE("jitter is filtered, and what is left is as large as stated") {
  double before = 2;
  for (const double rate_hz : {30.0, 60.0, 240.0}) {
    CAPTURE(rate_hz);
    double stated = 0, scatter = 0, count = 0;
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
      const auto track = smoothed(film_of(rate_hz, jitter_px, seed));
      CHECK_CLOSE(track.landmarks[wrist]->noise_px, jitter_px, 0.35 * jitter_px);
      for (double t = 0.2; t < 0.8; t += 0.1) {
        const auto point = *track.at(Duration::seconds(t)).points[wrist];
        stated += point.jitter_u_px * point.jitter_u_px;
        scatter += std::pow(off_px(point, t), 2) / 2;
        ++count;
      }
    }
    const double stated_px = std::sqrt(stated / count), scatter_px = std::sqrt(scatter / count);
    CAPTURE(stated_px);
    CAPTURE(scatter_px);
    CHECK(stated_px > 0.95 * scatter_px);
    CHECK(stated_px < 1.35 * scatter_px);
    CHECK(scatter_px < before);
    before = scatter_px;
  }
  // 240 pictures a second are worth more than a third of the jitter.
  CHECK(before < 0.45 * jitter_px);
}

TEST_CASE("velocities are slopes as the other library takes them") {
  const auto track = smoothed(film_of(60, jitter_px));
  const auto& x_px = track.landmarks[wrist]->x_px;
  const auto answer = test::by_another_library(
      "motion/filters.py", fmt::format("slope {} {}\n", track.step_s, fmt::join(x_px, " ")));
  if (!answer) {
    MESSAGE("skipped: /usr/bin/python3 has no scipy");
    return;
  }
  std::istringstream numbers(*answer);
  for (std::size_t k = 0; k < track.samples; ++k) {
    double theirs = 0;
    numbers >> theirs;
    REQUIRE_FALSE(numbers.fail());
    if (k == 0 || k + 1 == track.samples) continue;  // theirs are one-sided parabolas
    const auto at = track.at(Duration::seconds(track.time_s(k)));
    CHECK_CLOSE(at.points[wrist]->velocity_px_s.x_px, theirs, 1e-6);
    CHECK_CLOSE(at.points[wrist]->at.x_px, x_px[k], 1e-6);
  }
}

TEST_CASE("a velocity between samples is the slope of the path") {
  const auto track = smoothed(film_of(60, jitter_px));
  constexpr double h = 1e-6;
  for (const double t : {0.5031, 1.2, 2.1477, 3.0}) {
    const auto before = *track.at(Duration::seconds(t - h)).points[wrist];
    const auto after = *track.at(Duration::seconds(t + h)).points[wrist];
    const auto here = *track.at(Duration::seconds(t)).points[wrist];
    CHECK_CLOSE(here.velocity_px_s.x_px, (after.at.x_px - before.at.x_px) / (2 * h), 0.01);
    CHECK_CLOSE(here.velocity_px_s.y_px, (after.at.y_px - before.at.y_px) / (2 * h), 0.01);
  }
}

/// The film without the wrist in `count` frames from `first`.
pose::Track without_wrist(pose::Track track, std::size_t first, std::size_t count) {
  for (std::size_t f = first; f < first + count; ++f) track.frames[f].person->image[wrist].reset();
  return track;
}

TEST_CASE("short gaps are filled, longer ones stay") {
  struct Gap {
    double rate_hz;
    std::size_t filled;  ///< frames of the longest gap that is
  };
  for (const auto& [rate_hz, filled] : {Gap{24, 1}, Gap{30, 2}, Gap{60, 4}, Gap{240, 16}}) {
    CAPTURE(rate_hz);
    const auto first = static_cast<std::size_t>(0.5 * rate_hz);
    const auto film = film_of(rate_hz, jitter_px);
    const auto inside = Duration::seconds((static_cast<double>(first) + 0.5) / rate_hz);
    const auto closed = smoothed(without_wrist(film, first, filled));
    CHECK(closed.landmarks[wrist]->state[first] == State::filled);
    REQUIRE(closed.at(inside).points.has(wrist));
    CHECK(closed.at(inside).points[wrist]->filled);
    CHECK_FALSE(closed.at(inside).points[lead(Joint::hip)]->filled);
    CHECK(std::ranges::count(closed.landmarks[wrist]->state, State::filled) ==
          static_cast<std::ptrdiff_t>(filled));
    CHECK(closed.notes.empty());  // so few are not told of
    const auto open = smoothed(without_wrist(film, first, filled + 1));
    CHECK(open.landmarks[wrist]->state[first] == State::missing);
    CHECK_FALSE(open.at(inside).points.has(wrist));
    CHECK(open.at(inside).points.has(lead(Joint::hip)));
    CHECK(open.notes.empty());
  }
  auto often = film_of(60, jitter_px);
  for (std::size_t f = 9; f + 9 < often.frames.size(); f += 3) often = without_wrist(often, f, 1);
  CHECK(smoothed(often).notes.size() == 1);
}

TEST_CASE("a filled point is as unsure as stated") {
  for (const double rate_hz : {30.0, 60.0}) {
    CAPTURE(rate_hz);
    double square = 0, count = 0;
    for (std::uint64_t seed = 1; seed <= 10; ++seed) {
      const auto film = film_of(rate_hz, jitter_px, seed);
      // A frame lost here and there from the top to past impact.
      for (double t = 1.6; t < 2.5; t += 0.04) {
        const auto lost = static_cast<std::size_t>(std::lround(t * rate_hz));
        const double at_s = static_cast<double>(lost) / rate_hz;
        const auto point =
            *smoothed(without_wrist(film, lost, 1)).at(Duration::seconds(at_s)).points[wrist];
        CHECK(point.filled);
        square += std::pow(off_px(point, at_s) / point.jitter_u_px, 2) / 2;
        ++count;
      }
    }
    const double off_over_u = std::sqrt(square / count);
    CAPTURE(off_over_u);
    CHECK(off_over_u < 1.1);
    CHECK(off_over_u > 0.3);
  }
}

TEST_CASE("dropped and repeated frames leave the path") {
  for (const double rate_hz : {30.0, 60.0}) {
    auto film = film_of(rate_hz, 0);
    const auto impact = static_cast<std::size_t>(std::lround(impact_s * rate_hz));
    for (const std::size_t f : {impact - 9, impact + 7}) {
      film.frames[f].person = film.frames[f - 1].person;
    }
    film.frames.erase(film.frames.begin() + static_cast<std::ptrdiff_t>(impact) + 2);
    const auto track = smoothed(film, rate_hz);
    CHECK(farthest_about_impact_m(track) < (rate_hz < 60 ? 0.015 : 0.002));
  }
}

TEST_CASE("uneven frames give the path that even ones give") {
  for (const double rate_hz : {30.0, 60.0, 240.0}) {
    CAPTURE(rate_hz);
    const auto track = smoothed(film_of(rate_hz, 0, 1, 0.2 / rate_hz));
    CHECK_CLOSE(track.step_s, 1 / rate_hz, 0.1 / rate_hz);
    CHECK(farthest_about_impact_m(track) < (rate_hz < 60 ? 0.008 : 0.001));
    CHECK(track.notes.empty());
  }
}

TEST_CASE("outliers are taken out, impact is kept") {
  for (const double rate_hz : {30.0, 60.0, 240.0}) {
    CAPTURE(rate_hz);
    auto film = film_of(rate_hz, jitter_px);
    const auto impact = static_cast<std::size_t>(std::lround(impact_s * rate_hz));
    const auto quarter = static_cast<std::size_t>(rate_hz / 4);
    // Far off at impact itself, and two that stand close together.
    film.frames[impact].person->image[wrist]->at.y_px -= 0.4 * px_per_m;
    film.frames[impact - quarter].person->image[wrist]->at.y_px += 0.8 * px_per_m;
    film.frames[impact - quarter + 4].person->image[wrist]->at.y_px += 0.9 * px_per_m;
    const auto track = smoothed(film);
    // The three that were taken out are filled, and too few to be told of.
    CHECK(std::ranges::count(track.landmarks[wrist]->state, State::filled) == 3);
    CHECK(track.notes.empty());
    CHECK(farthest_about_impact_m(track) < (rate_hz < 60 ? 0.025 : 0.015));
  }
}

TEST_CASE("noise is as large as the hands are hidden") {
  auto film = film_of(60, jitter_px);
  std::mt19937_64 random(3);
  std::normal_distribution<double> normal(0, 5 * jitter_px);
  for (std::size_t f = 170; f < film.frames.size(); ++f)
    film.frames[f].person->image[wrist]->at.x_px += normal(random);
  for (std::size_t f = 170; f < film.frames.size(); ++f)
    film.frames[f].person->image[wrist]->at.y_px += normal(random);
  const auto track = smoothed(film);
  const double calm = track.at(Duration::seconds(0.5)).points[wrist]->jitter_u_px;
  const double wild = track.at(Duration::seconds(3.2)).points[wrist]->jitter_u_px;
  CHECK(wild > 3 * calm);
  CHECK(wild < 8 * calm);
}

TEST_CASE("confidence lies between that of the frames") {
  auto film = film_of(30, 0);
  film.frames[15].person->image[wrist]->confidence = 0.5;
  film.frames[16].person->image[wrist]->confidence = 0.1;
  const auto track = smoothed(film);
  CHECK_CLOSE(track.at(Duration::seconds(15.5 / 30)).points[wrist]->confidence, 0.3, 1e-9);
  CHECK_CLOSE(track.at(Duration::seconds(16.0 / 30)).points[wrist]->confidence, 0.1, 1e-9);
}

TEST_CASE("outside the film nothing is seen, at its ends everything") {
  const auto track = smoothed(film_of(30, jitter_px));
  CHECK(track.samples == 106);
  CHECK_CLOSE(track.end_s(), 3.5, 1e-9);
  for (const double t : {-0.01, 3.51, std::nan("")})
    CHECK_FALSE(track.at(Duration::seconds(t)).points.has(wrist));
  for (const double t : {0.0, track.end_s()}) {
    const Instant at = track.at(Duration::seconds(t), Duration::seconds(0.01));
    CHECK(at.points.has(wrist));
    CHECK(at.time == Duration::seconds(t));
    CHECK(at.standard_uncertainty == Duration::seconds(0.01));
    CHECK_FALSE(at.points.has(lead(Joint::small_toe)));
  }
}

TEST_CASE("films too short to filter come through as they are") {
  for (const std::size_t frames : {1U, 2U, 5U, 9U}) {
    CAPTURE(frames);
    auto film = film_of(30, jitter_px);
    film.frames.resize(frames);
    const auto track = smoothed(film, 30);
    CHECK(track.samples == frames);
    const auto& series = *track.landmarks[wrist];
    CHECK(series.cutoff_hz == 0);
    for (std::size_t f = 0; f < frames; ++f)
      CHECK(series.x_px[f] == film.frames[f].person->image[wrist]->at.x_px);
    CHECK(track.at(Duration::seconds(0)).points.has(wrist));
  }
  CHECK(motion::smooth({}, {}).samples == 0);
}

}  // namespace
}  // namespace rangecheck
