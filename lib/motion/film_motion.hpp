// SPDX-License-Identifier: MIT
// Motion's one answer about a film: the still address, the smoothed landmarks and the swing.
#pragma once

#include <optional>
#include <string_view>

#include "base/message.hpp"
#include "base/result.hpp"
#include "motion/clock.hpp"
#include "motion/smooth.hpp"
#include "motion/still.hpp"
#include "motion/swing.hpp"

namespace rangecheck::motion {

struct FilmMotion {
  Still address;
  Clock clock;  ///< of the real scene
  SmoothTrack track;
  std::optional<Swing> swing;  ///< nothing: none was found in the film
  std::vector<Message> notes;  ///< of clock, smoothing, address and swing, for the report
};

/// Everything about one film in time. Errors: bad stamps; a golfer who never stands still at
/// address (also when the film begins in the middle of the swing, which the error says).
Result<FilmMotion> film_motion(const pose::Track& track, std::optional<double> stated_rate_hz,
                               std::string_view kind);

}  // namespace rangecheck::motion
