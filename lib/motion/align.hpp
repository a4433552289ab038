// SPDX-License-Identifier: MIT
// Two films that never start together, laid side by side.
#pragma once

#include <array>
#include <vector>

#include "base/message.hpp"
#include "motion/swing.hpp"

namespace rangecheck::motion {

/// How two films' swings go together.
struct Alignment {
  bool could_be_one = false;           ///< nothing in the times speaks against two cameras at once
  bool one_swing = false;              ///< taken as one swing: could be, and the manifest says so
  double chi_square = 0, freedom = 0;  ///< of the times between positions against one another
  Duration offset;  ///< second film's clock minus the first's at one moment; when one_swing
  std::array<Swing, 2> swings;  ///< times of one swing are merged, weighted, on each film's clock
  std::vector<Message> notes;
};

/// Compares the times between the positions that both films show, three at least: equal within
/// their uncertainties (chi-square, 5 %) they can be one swing. `said_same` is the manifest's word;
/// where the films contradict it they are taken as two swings and a note says so. Without the
/// manifest's word they are two swings however alike: a golfer repeats a tempo to a few hundredths
/// of a second.
Alignment align(const Swing& first, const Swing& second, bool said_same);

/// The moment of `to` that shows the same phase of the swing as `time` of `from`: straight between
/// the positions that both have (a monotone time warp), nothing outside them.
std::optional<Duration> same_phase(const Swing& from, const Swing& to, Duration time);

}  // namespace rangecheck::motion
