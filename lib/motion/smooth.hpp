// SPDX-License-Identifier: MIT
// Landmark tracks made fit to measure.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "base/message.hpp"
#include "base/skeleton.hpp"
#include "base/units.hpp"
#include "motion/clock.hpp"
#include "pose/golfer.hpp"

namespace rangecheck::motion {

/// A landmark at one moment of a moving film.
struct InstantPoint {
  intake::ImagePoint at;  ///< smoothed, pixels
  intake::ImagePoint velocity_px_s;
  double jitter_u_px = 0;  ///< standard uncertainty of `at` along either axis, of what noise the
                           ///< filter leaves and of filling
  double confidence = 1;   ///< interpolated, of what the estimator gave
  bool filled = false;     ///< lies in a gap that was filled
};

/// The estimator's own 3D idea of a landmark at one moment (motion/space_track.hpp). Camera axes:
/// right, down, away.
struct InstantSpatialPoint {
  std::array<double, 3> at_m{};
  std::array<double, 3> velocity_m_s{};
  double jitter_u_m = 0;  ///< as InstantPoint::jitter_u_px, along any axis
  double confidence = 1;
};

/// All landmarks at one moment; those in a gap too long to fill are absent.
struct Instant {
  LandmarkMap<InstantPoint> points;
  LandmarkMap<InstantSpatialPoint> spatial;  ///< where the film's points in space are followed
  Duration time;                             ///< of the film's clock
  Duration standard_uncertainty;             ///< of the moment's own time
};

/// One landmark through the film on an even clock. Where `known` is false x and y mean nothing.
struct Series {
  std::vector<double> x_px, y_px;  ///< filtered
  std::vector<double> confidence;
  std::vector<double> u_px;  ///< standard uncertainty along either axis from noise and filling
  enum class State : unsigned char { missing, filled, seen };
  std::vector<State> state;
  double noise_px = 0;   ///< standard deviation of the raw points' noise along one axis
  double cutoff_hz = 0;  ///< larger of the two axes'; 0 when the film is too short to filter
};

struct SmoothTrack {
  double start_s = 0, step_s = 0;  ///< the even clock
  std::size_t samples = 0;
  LandmarkMap<Series> landmarks;
  std::vector<Message> notes;  ///< outliers taken out, gaps filled, where they are many

  double time_s(std::size_t sample) const { return start_s + step_s * static_cast<double>(sample); }
  double end_s() const { return samples == 0 ? start_s : time_s(samples - 1); }
  /// Positions by cubic interpolation, velocities from central differences. Outside the film or in
  /// a gap a landmark is absent.
  Instant at(Duration time, Duration standard_uncertainty = {}) const;
};

/// Gaps up to this long, two frames at 30 a second, are filled (cubic in time); longer ones stay
/// missing. Common practice, no source.
inline constexpr double longest_filled_gap_s = 0.07;

/// Puts every landmark on an even clock (the film's usual step), takes outliers out (Hampel, on the
/// distance of each point from the cubic through its four neighbours, so that a fast hand is none),
/// fills short gaps and filters by a zero-lag 4th-order Butterworth low-pass. Its cut-off comes
/// from residual analysis of the second in which the landmark moves most, the larger of the axes',
/// at least 16 Hz and at most 0.45 of the film's rate: at 12 Hz wrists and elbows stray 1.5 cm from
/// their path about impact, at 8 Hz 3 cm, which is more than the jitter they spare (made-up
/// swings).
SmoothTrack smooth(const pose::Track& track, const Clock& clock);

}  // namespace rangecheck::motion
