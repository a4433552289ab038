// SPDX-License-Identifier: MIT
// Inside motion: the movements of a film that are shaped like a swing.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "intake/submission.hpp"
#include "motion/signals.hpp"

namespace rangecheck::motion {

/// How far the hands go: full and bunker swings; pitches and chips; putts.
enum class Reach { full, part, stroke };
Reach reach_of(std::string_view kind);

/// A movement shaped like a swing. Numbers of samples.
struct Movement {
  std::optional<std::size_t> rest;  ///< last at which the hands rest before; none: begins midway
  std::size_t away = 0;             ///< hands surely on their way back
  std::size_t top = 0;              ///< hands farthest back
  std::optional<std::size_t> low;   ///< hands back at the low place, at speed; none: ends before
  std::size_t through = 0;          ///< hands farthest through, or the film's last sample
  bool ends_early = false;          ///< the film ends before the hands are through
  double speed_m_s = 0;             ///< highest of the hands, coming down
};

/// In order of time, none within another.
std::vector<Movement> movements_like_swings(const Signals& signals, intake::View view, Reach reach);

/// Which of them is the golfer's real swing: the last that is about as fast as the fastest.
/// `movements` is not empty.
std::size_t real_one(const std::vector<Movement>& movements);

}  // namespace rangecheck::motion
