// SPDX-License-Identifier: MIT
// A landmark as the estimator gave it, before it is smoothed.
#pragma once

#include <array>
#include <vector>

#include "motion/clock.hpp"
#include "pose/golfer.hpp"

namespace rangecheck::motion {

/// One landmark at the times of the frames that show it; frames that repeat the one before are
/// left out. All vectors are of one length.
struct Raw {
  std::vector<double> time_s, x_px, y_px, confidence;
  std::size_t count() const { return time_s.size(); }
};

Raw raw_of(const pose::Track& track, const Clock& clock, std::size_t landmark);

/// Weights with which the values at four times make the value at `at` of the cubic through them.
std::array<double, 4> cubic_weights(const std::array<double, 4>& time_s, double at);

/// Takes out samples that lie farther from the cubic through their four neighbours than the noise
/// around them and `floor_px` allow; a movement, however fast, is nearly a cubic over five frames.
/// `step_s` is the film's usual step. Returns how many went.
std::size_t take_outliers_out(Raw& raw, double step_s, double floor_px);

/// Standard deviation of the samples' noise along one axis, from how they lie about the cubics
/// through their neighbours. All 0 for fewer than five samples.
struct Noise {
  double usual_px = 0;          ///< over the whole film
  std::vector<double> here_px;  ///< around each sample, no less than the usual
};

Noise noise_of(const Raw& raw, double step_s);

}  // namespace rangecheck::motion
