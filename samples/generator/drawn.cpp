// SPDX-License-Identifier: MIT
#include "generator/drawn.hpp"

#include <cmath>
#include <stdexcept>

namespace rangecheck::samples {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;

/// The films' postures: with two takes, the mean plus and minus one variation.
std::vector<Points> takes(Random& random, const Golfer& golfer, const Options& options) {
  const std::size_t count = options.views.size();
  if (options.same_swing || count < 2) return std::vector<Points>(count, golfer.points);
  constexpr int patience = 1000;
  for (int attempt = 0; attempt < patience; ++attempt) {
    const Address variation = draw_variation(random);
    // Two independent takes differ by sqrt(2) SDs; each is half of that away from their mean.
    const auto one = pose(golfer.body, varied(golfer.address, variation, std::sqrt(0.5)));
    const auto other = pose(golfer.body, varied(golfer.address, variation, -std::sqrt(0.5)));
    if (one && other) return {*one, *other};
  }
  throw std::runtime_error("no second take found that this body can do");
}

FilmedTruth film(Random& random, View view, const Points& points, const Options& options) {
  FilmedTruth filmed;
  filmed.view = view;
  filmed.points = points;
  filmed.camera = draw_camera(random, view, options.placement, points);
  filmed.frames = detect(random, options.detector, view, filmed.camera, points);
  filmed.marked = mark(random, filmed.camera, points);
  filmed.notes = note(random, filmed.camera);
  return filmed;
}

Golfer changed(Golfer golfer, const std::function<void(Address&)>& change) {
  change(golfer.address);
  const auto points = pose(golfer.body, golfer.address);
  if (!points) throw std::runtime_error("this body can't take the changed posture");
  golfer.points = *points;
  return golfer;
}

}  // namespace

Marked mark(Random& random, const Camera& camera, const Points& points) {
  const auto clicked = [&](const Vector3d& point) -> Vector2d {
    return camera.project(point) + random.normal_2d(2);
  };
  const Vector3d& ball = *points[centre(Joint::ball)];
  const Vector3d stick(ball.x(), 0.005, ball.z() + 0.12);
  const Vector3d half(0.45, 0, 0);
  return {clicked(ball), {clicked(stick - half), clicked(stick + half)}};
}

CameraNotes note(Random& random, const Camera& camera) {
  constexpr double toes_z_m = 0.25;
  const Vector3d& at = camera.position;
  CameraNotes notes;
  notes.focal_px = camera.focal_px * random.normal(1, 0.01);
  notes.height_m = at.y() + random.normal(0, 0.02);
  notes.distance_m = std::hypot(at.x(), at.z() - toes_z_m) + random.normal(0, 0.05);
  return notes;
}

Grip grip_of(std::uint64_t seed, const Options& options) {
  if (!options.grip) return {};
  auto of_grip = Random::for_part(seed, 50);
  return draw_grip(of_grip, *options.grip);
}

Drawn draw(std::uint64_t seed, const Options& options) {
  if (options.views.size() > 2) throw std::runtime_error("at most two films");
  Drawn drawn;
  auto of_golfer = Random::for_part(seed, 0);
  drawn.golfer =
      draw_golfer(of_golfer, options.age, options.setup, options.family, grip_of(seed, options));
  if (options.later) {
    drawn.golfer = changed(std::move(drawn.golfer), options.later);
    constexpr std::uint64_t another_day = 2'000'000;
    seed += another_day;
  }
  auto of_takes = Random::for_part(seed, 1);
  const auto postures = takes(of_takes, drawn.golfer, options);
  for (std::size_t i = 0; i < options.views.size(); ++i) {
    auto of_film = Random::for_part(seed, 2 + i);
    drawn.films.push_back(film(of_film, options.views[i], postures[i], options));
  }
  return drawn;
}

}  // namespace rangecheck::samples
