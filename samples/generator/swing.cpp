// SPDX-License-Identifier: MIT
#include "generator/swing.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "generator/film_detector.hpp"
#include "generator/swing_film.hpp"

namespace rangecheck::samples {
namespace {

/// Streams of random numbers: the golfer, and camera and film, have those of `draw`.
enum Part : std::uint64_t { golfer_part = 0, takes_part = 1, first_film_part = 2, swing_part = 20 };

/// A golfer and his mean swing.
struct Swinger {
  Golfer golfer;
  SwingNumbers numbers;
  SwingTiming timing;
  SwingMotion motion;
};

/// Not every body can do every swing: another swing is tried, and after many another golfer.
Swinger draw_swinger(std::uint64_t seed, const SwingOptions& options) {
  auto of_golfer = Random::for_part(seed, golfer_part);
  auto of_swing = Random::for_part(seed, swing_part);
  constexpr int golfers = 20, swings = 60;
  for (int i = 0; i < golfers; ++i) {
    const Golfer golfer = draw_golfer(of_golfer, options.base.age, options.base.setup,
                                      options.base.family, grip_of(seed, options.base));
    for (int attempt = 0; attempt < swings; ++attempt) {
      const SwingNumbers numbers = draw_swing_numbers(of_swing);
      const SwingTiming timing = draw_timing(of_swing, options);
      const auto motion = SwingMotion::plan(golfer, options.kind, numbers, timing);
      if (motion) return {golfer, numbers, timing, *motion};
    }
  }
  throw std::runtime_error("no swing found that a body can do");
}

/// The films' swings: with two takes, the mean plus and minus one variation.
std::vector<SwingMotion> takes(Random& random, const Swinger& mean, const SwingOptions& options) {
  const std::size_t count = options.base.views.size();
  if (options.base.same_swing || count < 2) return std::vector<SwingMotion>(count, mean.motion);
  constexpr int patience = 1000;
  for (int attempt = 0; attempt < patience; ++attempt) {
    const Address address = draw_variation(random);
    const SwingNumbers numbers = draw_swing_variation(random);
    const SwingTiming timing = draw_timing_variation(random);
    const auto take = [&](double times) -> std::optional<SwingMotion> {
      Golfer golfer = mean.golfer;
      golfer.address = varied(mean.golfer.address, address, times);
      const auto points = pose(golfer.body, golfer.address);
      if (!points) return std::nullopt;
      golfer.points = *points;
      return SwingMotion::plan(golfer, options.kind, varied(mean.numbers, numbers, times),
                               varied(mean.timing, timing, times));
    };
    // Two independent takes differ by sqrt(2) SDs; each is half of that away from their mean.
    const auto one = take(std::sqrt(0.5)), other = take(-std::sqrt(0.5));
    if (one && other) return {*one, *other};
  }
  throw std::runtime_error("no second take found that this body can do");
}

TopOf top_of(const SwingOptions& options) { return options.club ? TopOf::club : TopOf::hands; }

PositionMap<Points> at_events(const SwingMotion& motion, const PositionMap<double>& events) {
  PositionMap<Points> points;
  for (const auto position : all_positions) {
    if (events.has(position)) points[position] = motion.points(*events[position]);
  }
  return points;
}

/// What the camera must show: the golfer and the ball, and the club as he stands.
std::vector<Points> to_be_shown(const SwingMotion& motion) {
  std::vector<Points> postures{motion.points(0)};
  constexpr int steps = 24;
  for (int i = 1; i <= steps; ++i) {
    Points points = motion.points(motion.timing().end_s() * i / steps);
    for (const auto joint : {Joint::hosel, Joint::club_toe, Joint::shaft_mid}) {
      points[centre(joint)].reset();
    }
    postures.push_back(points);
  }
  return postures;
}

Instant instant_at(const SwingScene& scene, double time_s) {
  constexpr double half_s = 2e-4;
  Instant instant{scene.points(time_s), {}, scene.phase(time_s)};
  const Points before = scene.points(time_s - half_s), after = scene.points(time_s + half_s);
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const auto id = landmark_at(i);
    if (before[id]) instant.velocity[id] = (*after[id] - *before[id]) / (2 * half_s);
  }
  return instant;
}

/// From when to when the camera runs, in the scene's time.
std::pair<double, double> running(Random& random, const SwingScene& scene,
                                  const PositionMap<double>& events, const SwingOptions& options) {
  // Somebody presses the button a little later than the other, or stops a little sooner.
  double from_s = scene.start_s() + random.uniform(0, 0.15);
  double to_s = scene.end_s() - random.uniform(0, 0.15);
  const double into_backswing = random.uniform(0.35, 0.65);
  const double after_impact_s = random.uniform(0.02, 0.15);
  if (options.trimmed_start) from_s = into_backswing * *events[Position::top];
  if (options.trimmed_end) to_s = *events[Position::impact] + after_impact_s;
  return {from_s, to_s};
}

FilmedSwing film(Random& random, View view, const SwingScene& scene, const SwingOptions& options) {
  FilmedSwing filmed;
  filmed.view = view;
  const auto events = scene.motion().events(top_of(options));
  filmed.camera = draw_camera(random, view, options.base.placement, to_be_shown(scene.motion()));
  const auto [from_s, to_s] = running(random, scene, events, options);
  const auto pictures = take_pictures(random, options, from_s, to_s);
  std::vector<Instant> instants;
  for (const auto& picture : pictures) {
    instants.push_back(instant_at(scene, picture.time_s));
    filmed.number.push_back(picture.number);
    filmed.time_s.push_back(picture.time_s - from_s);
    filmed.truth.push_back(instants.back().points);
  }
  Detector detector = options.base.detector;
  detector.club |= options.club;
  filmed.frames = detect_moving(random, detector, view, filmed.camera, instants);
  for (std::size_t i = 1; i < pictures.size(); ++i) {
    if (pictures[i].repeated) filmed.frames[i] = filmed.frames[i - 1];
  }
  const auto at_event = at_events(scene.motion(), events);
  for (const auto position : all_positions) {
    if (!events.has(position)) continue;
    const double time_s = *events[position] - from_s;
    if (time_s < 0 || time_s > filmed.time_s.back()) continue;
    filmed.event_s[position] = time_s;
    filmed.at_event[position] = at_event[position];
  }
  const Points& address = scene.motion().figure().golfer().points;
  filmed.marked = mark(random, filmed.camera, address);
  filmed.notes = note(random, filmed.camera);
  return filmed;
}

}  // namespace

SwingMotion draw_motion(std::uint64_t seed, const SwingOptions& options) {
  return draw_swinger(seed, options).motion;
}

DrawnSwing draw_swing(std::uint64_t seed, const SwingOptions& options) {
  if (options.base.views.size() > 2) throw std::runtime_error("at most two films");
  auto of_takes = Random::for_part(seed, takes_part);
  const Swinger mean = draw_swinger(seed, options);
  DrawnSwing drawn;
  drawn.golfer = mean.golfer;
  drawn.mean_at_event = at_events(mean.motion, mean.motion.events(top_of(options)));
  const auto motions = takes(of_takes, mean, options);
  std::optional<SwingScene> scene;
  for (std::size_t i = 0; i < motions.size(); ++i) {
    auto of_film = Random::for_part(seed, first_film_part + i);
    // Two cameras at one swing see one scene.
    if (!scene || !options.base.same_swing) scene.emplace(of_film, motions[i], options);
    drawn.films.push_back(film(of_film, options.base.views[i], *scene, options));
  }
  return drawn;
}

}  // namespace rangecheck::samples
