// SPDX-License-Identifier: MIT
#include "generator/swing_keys.hpp"

#include <algorithm>
#include <cmath>

namespace rangecheck::samples {
namespace {

constexpr auto absolutely = Key::Measured::absolutely;
constexpr auto from_address = Key::Measured::from_address;
constexpr auto trail_elbow = Key::Measured::trail_elbow;
constexpr auto over_forearm = Key::Measured::over_forearm;

/// Common practice, no source: chosen so that the figures look like golfers of all sorts.
constexpr Key keys[] = {
    {Dof::pelvis_x, 1, -0.006, 0.010},
    {Dof::pelvis_x, 1.5, 0.018, 0.008, from_address, true},
    {Dof::pelvis_x, 2, 0.044, 0.012},
    {Dof::pelvis_x, 5, 0.083, 0.010},
    {Dof::pelvis_y, 1, -0.008, 0.004},
    {Dof::pelvis_y, 1.5, -0.012, 0.006, from_address, true},
    {Dof::pelvis_y, 2, -0.004, 0.006},
    {Dof::pelvis_y, 5, 0.015, 0.006},
    {Dof::pelvis_z, 1, -0.002, 0.006},
    {Dof::pelvis_z, 2, 0.004, 0.010},
    {Dof::pelvis_z, 5, 0.026, 0.010},
    {Dof::pelvis_turn, 0.97, -44, 7, absolutely},
    {Dof::pelvis_turn, 1.5, -1, 6, absolutely, true},
    {Dof::pelvis_turn, 2, 40, 8, absolutely},
    {Dof::pelvis_turn, 4, 64, 8, absolutely, true},
    {Dof::pelvis_turn, 5, 88, 8, absolutely},
    {Dof::pelvis_tilt, 1, -6, 3, absolutely},
    {Dof::pelvis_tilt, 2, 9, 3, absolutely},
    {Dof::pelvis_tilt, 5, 2, 3, absolutely},
    {Dof::forward_bend, 1, -3, 3},
    {Dof::forward_bend, 5, 5, 5, absolutely},
    {Dof::side_bend, 1, 0, 4},
    {Dof::side_bend, 2, 8, 3.5},
    {Dof::side_bend, 5, 6, 5, absolutely},
    {Dof::chest_turn, 1, -88, 10, absolutely},
    {Dof::chest_turn, 1.5, -50, 6, absolutely, true},
    {Dof::chest_turn, 2, 20, 6, absolutely},
    {Dof::chest_turn, 4, 94, 8, absolutely, true},
    {Dof::chest_turn, 5, 116, 10, absolutely},
    {Dof::chest_tilt, 1, 0, 2},
    {Dof::chest_tilt, 2, -9, 2.5},
    {Dof::chest_tilt, 5, 0, 3},
    {Dof::lead_elbow, 1, 13, 7, absolutely},
    {Dof::lead_elbow, 2, 6, 3, absolutely},
    {Dof::lead_elbow, 3, 9, 4, absolutely, true},
    {Dof::lead_elbow, 4, 30, 8, absolutely, true},
    {Dof::lead_elbow, 5, 104, 9, absolutely},
    {Dof::trail_span, 1, 88, 11, trail_elbow},
    {Dof::trail_span, 3, 15, 3, trail_elbow, true},
    {Dof::trail_span, 4, 13, 4, trail_elbow, true},
    {Dof::trail_span, 5, 78, 9, trail_elbow},
    {Dof::trail_limit, 1, 16, 0, absolutely},
    {Dof::trail_limit, 5, 16, 0, absolutely},
    {Dof::arms_up, 0.5, 8, 5, from_address, true},
    {Dof::arms_up, 1, 116, 8, absolutely},
    {Dof::arms_up, 1.45, 93, 6, absolutely, true},
    {Dof::arms_up, 1.8, 11, 5, from_address, true},
    {Dof::arms_up, 3, 20, 4, from_address, true},
    {Dof::arms_up, 4, 90, 7, absolutely, true},
    {Dof::arms_up, 5, 140, 8, absolutely},
    {Dof::club_back, 0.5, 90, 6, absolutely, true},
    {Dof::club_back, 1.45, 188, 7, absolutely, true},
    {Dof::club_back, 1.8, 90, 5, absolutely, true},
    {Dof::club_back, 3, -90, 5, absolutely, true},
    {Dof::club_back, 5, -275, 14, absolutely},
    {Dof::club_up, 0.5, 0, 4, absolutely, true},
    {Dof::club_up, 1, 0, 7, absolutely},
    {Dof::club_up, 1.5, -3, 4, absolutely, true},
    {Dof::club_up, 3, 0, 3, absolutely, true},
    {Dof::club_up, 5, -10, 8, absolutely},
    {Dof::club_roll, 0.5, 0, 4, over_forearm, true},
    {Dof::club_roll, 1, 0, 4, over_forearm},
    {Dof::club_roll, 1.8, 0, 4, over_forearm, true},
    {Dof::club_roll, 3, 0, 4, over_forearm, true},
    {Dof::club_roll, 4, 0, 4, over_forearm, true},
    {Dof::club_roll, 5, 0, 4, over_forearm},
    {Dof::lead_elbow_x, 1, 0, 0.1},
    {Dof::lead_elbow_x, 2, 0, 0.1},
    {Dof::lead_elbow_x, 5, 0.55, 0.1, absolutely},
    {Dof::lead_elbow_y, 1, 0, 0.1},
    {Dof::lead_elbow_y, 2, 0, 0.1},
    {Dof::lead_elbow_y, 5, -0.8, 0.1, absolutely},
    {Dof::lead_elbow_z, 1, 0, 0.1},
    {Dof::lead_elbow_z, 2, 0, 0.1},
    {Dof::lead_elbow_z, 5, 0.1, 0.1, absolutely},
    {Dof::trail_elbow_x, 1, -0.35, 0.12, absolutely},
    {Dof::trail_elbow_x, 2, -0.3, 0.1, absolutely},
    {Dof::trail_elbow_x, 5, -0.1, 0.1, absolutely},
    {Dof::trail_elbow_y, 1, -0.9, 0.1, absolutely},
    {Dof::trail_elbow_y, 2, -0.75, 0.1, absolutely},
    {Dof::trail_elbow_y, 5, -0.95, 0.1, absolutely},
    {Dof::trail_elbow_z, 1, -0.1, 0.12, absolutely},
    {Dof::trail_elbow_z, 2, -0.45, 0.1, absolutely},
    {Dof::trail_elbow_z, 5, 0.2, 0.1, absolutely},
    {Dof::lead_knee_in, 1, 17, 6},
    {Dof::lead_knee_in, 2, -4, 5},
    {Dof::lead_knee_in, 5, -6, 5},
    {Dof::trail_knee_in, 1, -2, 4},
    {Dof::trail_knee_in, 2, 20, 6},
    {Dof::trail_knee_in, 5, 12, 6},
    {Dof::head_turn, 1, -13, 7},
    {Dof::head_turn, 2, 2, 6},
    {Dof::head_turn, 3, 8, 6, from_address, true},
    {Dof::head_turn, 5, 74, 9, absolutely},
    {Dof::head_tilt, 2, -6, 4},
    {Dof::head_tilt, 5, -4, 5, absolutely},
    {Dof::gaze_down, 2, 0, 4},
    {Dof::gaze_down, 5, 9, 6, absolutely},
};

/// Of a key's spread over golfers, that over the swings of one golfer.
constexpr double of_one_golfer = 0.25;

double& timing_part(SwingTiming& timing, std::size_t i) {
  double* const parts[] = {&timing.backswing_s, &timing.downswing_s, &timing.release_s,
                           &timing.arms_s, &timing.finish_s};
  return *parts[i];
}
constexpr std::size_t timing_parts = 5;

constexpr double SwingNumbers::*single_numbers[] = {&SwingNumbers::lag_deg,
                                                    &SwingNumbers::hands_ahead,
                                                    &SwingNumbers::upright_deg,
                                                    &SwingNumbers::arms_behind,
                                                    &SwingNumbers::lead_heel_deg,
                                                    &SwingNumbers::trail_heel_deg,
                                                    &SwingNumbers::trail_heel_at_impact_deg,
                                                    &SwingNumbers::trail_foot_deg,
                                                    &SwingNumbers::order};

}  // namespace

std::array<double, 6> SwingTiming::phases() const {
  return {0, backswing_s, impact_s(), impact_s() + release_s, impact_s() + arms_s, end_s()};
}

double SwingTiming::at(double phase) const {
  const auto times = phases();
  const auto before = static_cast<std::size_t>(std::clamp(std::floor(phase), 0.0, 4.0));
  return times[before] + (phase - double(before)) * (times[before + 1] - times[before]);
}

double SwingTiming::phase(double time_s) const {
  const auto times = phases();
  const double inside_s = std::clamp(time_s, times.front(), times.back());
  std::size_t before = 0;
  while (before < 4 && inside_s > times[before + 1]) ++before;
  return double(before) + (inside_s - times[before]) / (times[before + 1] - times[before]);
}

std::span<const Key> swing_keys() { return keys; }

Extent extent_of(SwingKind kind) {
  switch (kind) {
    case SwingKind::pitch:
      return {0.68, 0.66, 0.7, 0.7, 0.65};
    case SwingKind::chip:
      return {0.33, 0.27, 0.4, 0.4, 0.52};
    case SwingKind::putt:
      return {0.13, 0.10, 0.05, 0.16, 0.5};
    case SwingKind::full:
      break;
  }
  return {1, 1, 1, 1, 1};
}

SwingNumbers draw_swing_numbers(Random& random) {
  SwingNumbers numbers;
  for (const auto& key : keys) numbers.keys.push_back(random.normal(0, key.sd));
  numbers.lag_deg = random.normal(97, 9);
  numbers.hands_ahead = random.normal(0.036, 0.012);
  numbers.upright_deg = random.normal(3, 2);
  numbers.arms_behind = random.normal(0.5, 0.05);
  numbers.lead_heel_deg = std::max(0.0, random.normal(2, 4));
  numbers.trail_heel_deg = random.normal(68, 7);
  numbers.trail_heel_at_impact_deg = random.uniform(4, 18);
  numbers.trail_foot_deg = random.normal(48, 8);
  numbers.order = random.normal(0.05, 0.04);
  return numbers;
}

SwingNumbers draw_swing_variation(Random& random) {
  SwingNumbers numbers;
  for (const auto& key : keys) numbers.keys.push_back(random.normal(0, of_one_golfer * key.sd));
  numbers.lag_deg = random.normal(0, 2);
  numbers.hands_ahead = random.normal(0, 0.004);
  numbers.upright_deg = random.normal(0, 0.5);
  numbers.arms_behind = random.normal(0, 0.01);
  numbers.trail_heel_deg = random.normal(0, 2);
  numbers.trail_foot_deg = random.normal(0, 2);
  numbers.order = random.normal(0, 0.008);
  return numbers;
}

SwingNumbers varied(const SwingNumbers& mean, const SwingNumbers& variation, double times) {
  SwingNumbers result = mean;
  for (std::size_t i = 0; i < result.keys.size(); ++i) {
    result.keys[i] += times * variation.keys[i];
  }
  for (const auto number : single_numbers) result.*number += times * (variation.*number);
  return result;
}

SwingTiming draw_timing(Random& random, const SwingOptions& options) {
  // Nobody swings a club down much faster or slower than this; people's own ranges go first.
  constexpr Range downswing_s{0.225, 0.33};
  constexpr int patience = 100;
  SwingTiming timing;
  for (int attempt = 0; attempt < patience; ++attempt) {
    timing.backswing_s = random.uniform(options.backswing_s.low, options.backswing_s.high);
    timing.downswing_s =
        timing.backswing_s / random.uniform(options.tempo_ratio.low, options.tempo_ratio.high);
    if (timing.downswing_s > downswing_s.low && timing.downswing_s < downswing_s.high) break;
  }
  timing.release_s = random.uniform(0.062, 0.085);
  timing.arms_s = timing.release_s + random.uniform(0.10, 0.14);
  timing.finish_s = random.uniform(0.70, 1.0);
  timing.finish_s *= extent_of(options.kind).finish;
  return timing;
}

SwingTiming draw_timing_variation(Random& random) {
  SwingTiming variation;
  for (std::size_t i = 0; i < timing_parts; ++i) {
    timing_part(variation, i) = random.normal(0, 0.025);
  }
  return variation;
}

SwingTiming varied(const SwingTiming& mean, const SwingTiming& variation, double times) {
  SwingTiming result = mean, by = variation;
  for (std::size_t i = 0; i < timing_parts; ++i) {
    timing_part(result, i) *= 1 + times * timing_part(by, i);
  }
  return result;
}

}  // namespace rangecheck::samples
