// SPDX-License-Identifier: MIT
// Inside motion: a smoothed film as the few signals that tell a swing. Metres here are those of the
// picture: the leg of a golfer of 1.70 m sets their size, whoever is filmed.
#pragma once

#include <optional>
#include <vector>

#include "motion/smooth.hpp"

namespace rangecheck::motion {

/// A number a sample. Samples that nothing is known of are bridged by straight lines, level at the
/// ends, so that searches need no special cases; `known` says which they are.
struct Signal {
  std::vector<double> value;
  std::vector<bool> known;

  bool any() const;
  /// Straight between samples; `place` in samples, held inside the film.
  double at(double place) const;
  /// Change a sample around `place`.
  double slope(double place) const;
  /// Samples from `place` to the nearest one that is known.
  double from_known(double place) const;
};

struct Signals {
  double start_s = 0, step_s = 0;
  std::size_t samples = 0;
  Signal x_m, y_m;             ///< hands, from the feet: along the picture and up
  Signal speed_m_s;            ///< of the hands
  Signal sure;                 ///< confidence of the surer wrist
  Signal lead_m, trail_m;      ///< each wrist above its shoulder
  Signal apart_m;              ///< wrist to wrist, where both are surely seen
  Signal hip_m, shoulder_m;    ///< heights of their middles above the feet
  Signal turn_m;               ///< lead shoulder beyond the trail one, along the picture
  Signal feet_x_m, feet_y_m;   ///< in the picture, so that steps can be told
  Signal far_foot_m;           ///< lead ankle above the trail one, in the picture
  std::vector<Signal> body_m;  ///< x and y of shoulders, elbows and wrists: what moves first
  // Of the club, where the film has its points.
  Signal head_x_m, head_y_m;    ///< from the feet
  Signal shaft_x_m, shaft_y_m;  ///< from the grip to the head

  bool has_club() const { return shaft_y_m.any(); }
  double time_s(double place) const { return start_s + step_s * place; }
  /// Samples in so many seconds, at least one.
  std::size_t count(double seconds) const;
};

/// Nothing for films in which hands, hips or feet are never seen.
std::optional<Signals> signals_of(const SmoothTrack& track);

/// First place on the way from one sample to another (either direction) where the signal passes the
/// level, in samples.
std::optional<double> crossing(const Signal& signal, double level, std::size_t from,
                               std::size_t to);

}  // namespace rangecheck::motion
