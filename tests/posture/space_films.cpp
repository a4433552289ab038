// SPDX-License-Identifier: MIT
#include "posture/space_films.hpp"

#include "drawn_film.hpp"
#include "generator/random.hpp"
#include "intake/space.hpp"

namespace rangecheck::test {
namespace {

constexpr std::size_t still_frames = 12;
constexpr double still_rate_hz = 30;

intake::SpaceSource source_of(samples::SpaceKind kind) {
  switch (kind) {
    case samples::SpaceKind::one_camera:
      return intake::SpaceSource::one_camera;
    case samples::SpaceKind::depth_camera:
      return intake::SpaceSource::depth_camera;
    case samples::SpaceKind::several_cameras:
      break;
  }
  return intake::SpaceSource::several_cameras;
}

intake::FilmedView film_of(const samples::Camera& camera, samples::View view,
                           samples::SpaceKind kind, std::uint64_t seed,
                           std::span<const samples::Points> points,
                           std::span<const double> times_s) {
  // A stream of its own, whatever else was drawn with the seed.
  auto random = samples::Random::for_part(seed, 100 + static_cast<std::uint64_t>(view));
  intake::FilmedView out;
  out.view = view_of(view);
  out.film.space = source_of(kind);
  const auto frames = samples::detect_in_space(random, kind, camera, points);
  for (std::size_t i = 0; i < frames.size(); ++i) {
    out.film.frames.push_back({i, Duration::seconds(times_s[i]), {person_of(frames[i])}});
  }
  intake::draw_picture(out.film);
  return out;
}

}  // namespace

intake::FilmedView space_film_of(const samples::FilmedTruth& truth, samples::SpaceKind kind,
                                 std::uint64_t seed) {
  const std::vector<samples::Points> points(still_frames, truth.points);
  std::vector<double> times_s;
  for (std::size_t i = 0; i < still_frames; ++i)
    times_s.push_back(static_cast<double>(i) / still_rate_hz);
  return film_of(truth.camera, truth.view, kind, seed, points, times_s);
}

intake::FilmedView space_film_of(const samples::FilmedSwing& truth, samples::SpaceKind kind,
                                 std::uint64_t seed) {
  return film_of(truth.camera, truth.view, kind, seed, truth.truth, truth.time_s);
}

intake::FilmedView without_picture(intake::FilmedView film) {
  for (auto& frame : film.film.frames) {
    for (auto& person : frame.people) person.image = {};
  }
  intake::draw_picture(film.film);
  film.ball.reset();
  film.target_line.reset();
  film.camera = {};
  return film;
}

std::function<void(const samples::Drawn&, posture::Evidence&)> seen_in_space(
    samples::SpaceKind kind) {
  return [kind](const samples::Drawn& drawn, posture::Evidence& evidence) {
    evidence.views.clear();
    for (const auto& truth : drawn.films) {
      const auto seed = static_cast<std::uint64_t>(drawn.golfer.body.stature_m * 1e9);
      if (auto view = evidence_of(space_film_of(truth, kind, seed)))
        evidence.views.push_back(*std::move(view));
    }
  };
}

}  // namespace rangecheck::test
