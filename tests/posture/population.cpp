// SPDX-License-Identifier: MIT
#include "posture/population.hpp"

#include <fmt/format.h>

#include <cmath>
#include <random>

#include "measure/measurement.hpp"
#include "motion/still.hpp"
#include "pose/golfer.hpp"

namespace rangecheck::test {
namespace {

constexpr double frame_rate_hz = 30;

intake::View view_of(samples::View view) {
  return view == samples::View::face_on ? intake::View::face_on : intake::View::down_the_line;
}

intake::FilmedView film_of(const samples::FilmedTruth& truth) {
  intake::FilmedView out;
  out.view = view_of(truth.view);
  out.film.image = intake::ImageSize{static_cast<double>(truth.camera.width_px),
                                     static_cast<double>(truth.camera.height_px)};
  for (const auto& frame : truth.frames) {
    intake::Person person;
    for (std::size_t i = 0; i < landmark_count; ++i) {
      const LandmarkId id = landmark_at(i);
      if (const auto& point = frame.image[id]) {
        person.image[id] =
            intake::Sighting{{point->at_px.x(), point->at_px.y()}, point->confidence};
      }
    }
    out.film.frames.push_back({out.film.frames.size(), std::nullopt, {person}});
  }
  return out;
}

/// Adults of both set-ups with every club, and one junior in ten.
samples::Options options_for(std::uint64_t seed, Films films) {
  using samples::Setup;
  constexpr std::array setups{Setup::iron, Setup::driver, Setup::wedge};
  samples::Options options;
  options.age = seed % 10 == 9 ? samples::Age::junior : samples::Age::adult;
  options.setup = setups[seed % setups.size()];
  options.family = seed % 2 == 0 ? samples::Family::neutral : samples::Family::preset;
  if (films == Films::face_on) options.views = {samples::View::face_on};
  if (films == Films::down_the_line) options.views = {samples::View::down_the_line};
  return options;
}

std::optional<double> truth_of(const measure::Rule& rule, const samples::Points& points) {
  std::vector<measure::Point> given;
  for (const LandmarkId id : rule.needs) {
    if (!points.has(id)) return std::nullopt;
    given.push_back(*points[id]);
  }
  return rule.measure(given);
}

double display(const measure::Rule& rule, double si) {
  return in_unit({si, rule.dimension}, display_unit(rule.dimension));
}

void hold(const measure::Measurement& measured, const samples::Points& points,
          Performance& performance) {
  const measure::Rule& rule = *measured.rule;
  const auto truth = truth_of(rule, points);
  if (!truth) return;
  ++performance.tried;
  if (measured.not_seen) return;
  double error = *measured.value - *truth;
  if (rule.dimension == Dimension::angle) error = std::remainder(error, 2 * M_PI);
  ++performance.seen;
  performance.covered += std::abs(error) <= 1.96 * measured.standard_uncertainty;
  performance.error += display(rule, error);
  performance.squared_error += std::pow(display(rule, error), 2);
  performance.uncertainty += display(rule, measured.standard_uncertainty);
}

}  // namespace

double Performance::rms() const { return seen ? std::sqrt(squared_error / seen) : 0; }
double Performance::coverage() const {
  return seen ? static_cast<double>(covered) / static_cast<double>(seen) : 0;
}
double Performance::mean_uncertainty() const { return seen ? uncertainty / seen : 0; }

posture::Evidence evidence_of(const samples::Drawn& drawn, std::uint64_t seed) {
  posture::Evidence out;
  const double stature_cm = drawn.golfer.body.stature_m * 100;
  std::mt19937_64 stated(seed);
  // People round, and some by more than they should.
  const double off_cm = static_cast<double>(stated() % 5) - 2;
  out.stature = Length::centimetres(std::round(stature_cm + off_cm));
  for (const auto& truth : drawn.films) {
    const intake::FilmedView film = film_of(truth);
    const auto track = pose::follow_golfer(film);
    if (!track) continue;
    auto still = motion::still_address(*track, frame_rate_hz);
    if (!still) continue;
    posture::ViewEvidence view;
    view.view = film.view;
    view.image = *film.film.image;
    view.still = *std::move(still);
    view.ball = intake::ImagePoint{truth.marked.ball_px.x(), truth.marked.ball_px.y()};
    out.views.push_back(std::move(view));
  }
  return out;
}

Population run_population(Films films, std::uint64_t first, int count) {
  Population out;
  for (int i = 0; i < count; ++i) {
    const std::uint64_t seed = first + static_cast<std::uint64_t>(i);
    const samples::Drawn drawn = samples::draw(seed, options_for(seed, films));
    const auto posture = posture::estimate_address(evidence_of(drawn, seed));
    ++out.golfers;
    const bool refused =
        !posture || std::any_of(posture->findings.begin(), posture->findings.end(),
                                [](const auto& finding) { return finding.refuses; });
    if (refused) {
      ++out.refused;
      continue;
    }
    for (const auto& measured : measure::measure_all(*posture)) {
      hold(measured, drawn.golfer.points, out.measures[std::string(measured.rule->id)]);
    }
  }
  return out;
}

std::string table(const Population& population) {
  std::string out =
      fmt::format("{} golfers, {} refused\n{:28} {:>6} {:>8} {:>8} {:>9}\n", population.golfers,
                  population.refused, "measure", "seen %", "RMS", "mean", "mean u", "inside %");
  for (const auto* rule : measure::catalogue()) {
    const auto found = population.measures.find(std::string(rule->id));
    if (found == population.measures.end() || found->second.tried == 0) continue;
    const Performance& p = found->second;
    if (p.seen == 0) {
      out +=
          fmt::format("{:28} {:6.1f} {:>8} {:>8} {:>8} {:>9}\n", rule->id, 0.0, "-", "-", "-", "-");
      continue;
    }
    out += fmt::format("{:28} {:6.1f} {:8.2f} {:8.2f} {:8.2f} {:9.1f}\n", rule->id,
                       100.0 * p.seen / p.tried, p.rms(), p.error / p.seen, p.mean_uncertainty(),
                       100 * p.coverage());
  }
  return out;
}

}  // namespace rangecheck::test
