// SPDX-License-Identifier: MIT
// The stated uncertainty of a median against its known value, and against how medians scatter.
#include <vector>

#include "motion/moving.hpp"

namespace rangecheck {
namespace {

/// Asymptotic standard error of the median of normal values over that of the mean, √(π/2).
constexpr double median_over_mean = 1.2533;
constexpr double sigma_px = 1.5;
constexpr std::size_t settling_frames = 3;

/// A still film whose jitter is AR(1): each frame repeats `rho` of the one before.
pose::Track film_with(double rho, std::size_t frames, std::mt19937_64& random) {
  const auto at_rest = test::figure();
  std::normal_distribution<double> normal(0, sigma_px);
  std::array<double, 2 * landmark_count> jitter_px;
  for (double& each : jitter_px) each = normal(random);
  pose::Track track;
  for (std::size_t f = 0; f < settling_frames + frames; ++f) {
    auto person = at_rest;
    for (std::size_t i = 0; i < landmark_count; ++i) {
      auto& point = person.image.values()[i];
      if (!point) continue;
      point->at.x_px += jitter_px[2 * i];
      point->at.y_px += jitter_px[2 * i + 1];
    }
    track.frames.push_back({f, std::nullopt, person});
    for (double& each : jitter_px) each = rho * each + std::sqrt(1 - rho * rho) * normal(random);
  }
  return track;
}

struct Draws {
  double stated_px = 0;   ///< root mean square of the stated uncertainties
  double scatter_px = 0;  ///< of the medians around the truth
};

Draws draw(double rho, std::size_t frames, int films) {
  std::mt19937_64 random(417);
  const auto at_rest = test::figure();
  double stated = 0, scatter = 0, count = 0;
  for (int i = 0; i < films; ++i) {
    const auto still = motion::still_address(film_with(rho, frames, random), 30);
    REQUIRE(still);
    REQUIRE(still->first_frame == settling_frames);
    REQUIRE(still->last_frame == settling_frames + frames - 1);
    for (std::size_t j = 0; j < landmark_count; ++j) {
      const auto& point = still->points.values()[j];
      if (!point) continue;
      const auto& truth = at_rest.image.values()[j]->at;
      stated += point->jitter_u_px * point->jitter_u_px;
      scatter +=
          (std::pow(point->at.x_px - truth.x_px, 2) + std::pow(point->at.y_px - truth.y_px, 2)) / 2;
      ++count;
    }
  }
  return {std::sqrt(stated / count), std::sqrt(scatter / count)};
}

double expected_px(double rho, std::size_t frames) {
  const double effective = static_cast<double>(frames) * (1 - rho) / (1 + rho);
  return median_over_mean * sigma_px / std::sqrt(effective);
}

TEST_CASE("white jitter: σ √(π/2)/√n") {
  for (const std::size_t frames : {15U, 40U, 120U}) {
    CAPTURE(frames);
    const Draws drawn = draw(0, frames, 300);
    // A film's own correlation is estimated and never below 0, which reads a little high.
    const double expected = expected_px(0, frames);
    CHECK(drawn.stated_px > 0.97 * expected);
    CHECK(drawn.stated_px < 1.15 * expected);
    CHECK_CLOSE(drawn.scatter_px, expected, 0.05 * expected);
  }
}

TEST_CASE("jitter that repeats itself: n counts for n (1 − ρ)/(1 + ρ)") {
  for (const double rho : {0.3, 0.6}) {
    for (const std::size_t frames : {40U, 120U}) {
      CAPTURE(rho);
      CAPTURE(frames);
      const Draws drawn = draw(rho, frames, 300);
      const double expected = expected_px(rho, frames);
      CHECK_CLOSE(drawn.stated_px, expected, 0.08 * expected);
      // The rule is that of the mean; medians scatter less than it says, never more.
      CHECK(drawn.scatter_px < 1.03 * expected);
      CHECK(drawn.scatter_px > 0.8 * expected);
    }
  }
}

TEST_CASE("in short windows the uncertainty is not understated") {
  for (const double rho : {0.0, 0.5}) {
    for (const std::size_t frames : {7U, 9U, 12U}) {
      CAPTURE(rho);
      CAPTURE(frames);
      const Draws drawn = draw(rho, frames, 300);
      CHECK(drawn.stated_px > 0.95 * drawn.scatter_px);
      CHECK(drawn.stated_px < 1.35 * drawn.scatter_px);
    }
  }
}

}  // namespace
}  // namespace rangecheck
