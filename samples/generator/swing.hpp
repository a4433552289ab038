// SPDX-License-Identifier: MIT
// A made-up golfer who swings: smooth joint paths with known positions, and films of them.
//
//   SwingOptions options;
//   options.rate_hz = 60;
//   const DrawnSwing drawn = draw_swing(417, options);
//   drawn.films[0].event_s[Position::top]              // truth, seconds from the film's first
//   frame drawn.films[0].at_event[Position::top]->...        // truth, metres, golfer frame
//   drawn.films[0].frames[0].image[lead(Joint::knee)]  // as detected, pixels
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "base/position.hpp"
#include "generator/drawn.hpp"

namespace rangecheck::samples {

enum class SwingKind { full, pitch, chip, putt };

struct SwingOptions {
  Options base;  ///< age, setup, family, views, placement, detector (its `frames` is not used),
                 ///< same_swing
  SwingKind kind = SwingKind::full;
  double rate_hz = 30;  ///< of the real scene
  /// Lengths of backswing and downswing; drawn from these when several swings are.
  Range backswing_s{0.65, 1.05};
  Range tempo_ratio{2.3, 3.7};  ///< backswing over downswing
  bool club = false;            ///< grip end, hosel and club toe among the detected points
  double dropped_chance = 0;    ///< of each frame to be missing from the file
  double repeated_chance = 0;   ///< of each frame to repeat the one before it
  double uneven_s = 0;          ///< standard deviation of each frame's moment about its even one
  bool waggle = false;          ///< before the address settles
  bool practice_swing = false;  ///< a whole swing at half the speed, then address again
  bool trimmed_end = false;     ///< the film stops shortly after impact
  bool trimmed_start = false;   ///< the film starts in the middle of the backswing
};

struct FilmedSwing {
  View view = View::face_on;
  Camera camera;
  std::vector<DetectedFrame> frames;  ///< those in the file
  std::vector<std::size_t> number;    ///< of each frame in the file, on the camera's count
  std::vector<double> time_s;         ///< when each was taken, from the film's first frame
  std::vector<Points> truth;          ///< the joints at those times
  PositionMap<double> event_s;        ///< when each position was, by the definitions of
                                      ///< base/position.hpp, on the same clock; those that exist
                                      ///< and lie in the film. The top is the club's with
                                      ///< `SwingOptions::club`, else that of the hands
  PositionMap<Points> at_event;       ///< the joints then
  Marked marked;
  CameraNotes notes;
};

struct DrawnSwing {
  Golfer golfer;  ///< at address
  std::vector<FilmedSwing> films;
  /// Truth of what is graded: films of two swings each differ a little from these mean joints.
  PositionMap<Points> mean_at_event;
};

/// The same for the same seed and options, on every machine.
DrawnSwing draw_swing(std::uint64_t seed, const SwingOptions& options = {});

}  // namespace rangecheck::samples
