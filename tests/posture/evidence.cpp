// SPDX-License-Identifier: MIT
#include "posture/evidence.hpp"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <random>

#include "drawn_film.hpp"
#include "motion/still.hpp"
#include "pose/golfer.hpp"
#include "truth.hpp"

namespace rangecheck::test {
namespace {

/// Of films that do not say it.
constexpr double usual_frame_rate_hz = 30;

}  // namespace

intake::FilmedView film_of(const samples::FilmedTruth& truth) {
  intake::FilmedView out;
  out.view = view_of(truth.view);
  out.film.image = intake::ImageSize{static_cast<double>(truth.camera.width_px),
                                     static_cast<double>(truth.camera.height_px)};
  for (const auto& frame : truth.frames) {
    out.film.frames.push_back({out.film.frames.size(), std::nullopt, {person_of(frame)}});
  }
  out.ball = intake::ImagePoint{truth.marked.ball_px.x(), truth.marked.ball_px.y()};
  return out;
}

std::optional<posture::ViewEvidence> evidence_of(const intake::FilmedView& film) {
  const auto track = pose::follow_golfer(film);
  if (!track) return std::nullopt;
  auto still = motion::still_address(*track, film.frame_rate_hz.value_or(usual_frame_rate_hz));
  if (!still) return std::nullopt;
  return posture::ViewEvidence{.view = film.view,
                               .estimator = film.film.estimator,
                               .image = *film.film.image,
                               .space = film.film.space,
                               .picture_is_drawn = film.film.picture_is_drawn,
                               .still = *std::move(still),
                               .ball = film.ball,
                               .target_line = film.target_line,
                               .camera = film.camera};
}

posture::Evidence evidence_of(const samples::Drawn& drawn, std::uint64_t seed) {
  posture::Evidence out;
  const double stature_cm = drawn.golfer.body.stature_m * 100;
  std::mt19937_64 stated(seed);
  // People round, and some by more than they should.
  const double off_cm = static_cast<double>(stated() % 5) - 2;
  out.stature = Length::centimetres(std::round(stature_cm + off_cm));
  for (const auto& truth : drawn.films) {
    if (auto view = evidence_of(film_of(truth))) out.views.push_back(*std::move(view));
  }
  return out;
}

posture::Evidence evidence_of(const intake::Submission& submission) {
  posture::Evidence out{.views = {},
                        .stature = submission.golfer.stature,
                        .foot = submission.golfer.foot,
                        .same_swing = submission.same_swing};
  for (const auto& film : submission.views) {
    if (auto view = evidence_of(film)) out.views.push_back(*std::move(view));
  }
  return out;
}

bool refused(const Result<posture::Posture>& posture) {
  return !posture || std::any_of(posture->findings.begin(), posture->findings.end(),
                                 [](const auto& finding) { return finding.refuses; });
}

std::optional<double> truth_of(const measure::Rule& rule, const samples::Points& points) {
  std::vector<measure::Point> given;
  for (const LandmarkId id : rule.needs) {
    if (!points.has(id)) return std::nullopt;
    given.push_back(*points[id]);
  }
  return rule.measure(given);
}

double error_of(const measure::Measurement& measured, double truth_si) {
  const double error = *measured.value - truth_si;
  return measured.rule->dimension == Dimension::angle ? std::remainder(error, 2 * M_PI) : error;
}

double displayed(const measure::Rule& rule, double si) {
  return in_unit({si, rule.dimension}, display_unit(rule.dimension));
}

samples::Points points_of(const nlohmann::json& joints_m) {
  samples::Points out;
  for (const auto& [name, at] : joints_m.items()) {
    if (const auto landmark = truth_landmark(name)) {
      out[*landmark] = Eigen::Vector3d(at[0], at[1], at[2]);
    }
  }
  return out;
}

}  // namespace rangecheck::test
