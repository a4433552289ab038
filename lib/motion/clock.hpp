// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <vector>

#include "base/message.hpp"
#include "base/result.hpp"
#include "pose/golfer.hpp"

namespace rangecheck::motion {

/// When each frame of a track was taken, in seconds of the real scene from the film's first frame.
struct Clock {
  std::vector<double> time_s;  ///< one a frame of the track; strictly increasing, but that a frame
                               ///< that repeats the one before it has its time
  std::vector<bool> repeated;  ///< the frame shows the same picture as the one before it
  double step_s = 0;           ///< usual (median) time between frames
  bool rate_assumed = false;   ///< nobody said how fast the pictures come
  std::vector<Message> notes;  ///< slow motion, dropped, repeated or uneven frames, for people

  /// Index of the frame taken nearest to `time`; there must be one.
  std::size_t frame_at(Duration time) const;
};

/// Times from the file's own stamps where there are any, else from frame numbers. A rate that a
/// person states is that of the real scene: stamps that run at another pace are playback time of a
/// slow-motion film and are brought to it. Without stamps and a stated rate the usual 30 Hz is
/// assumed, and a note says so. Errors: stamps that go backward, a rate that is not positive.
Result<Clock> clock_of(const pose::Track& track, std::optional<double> stated_rate_hz);

}  // namespace rangecheck::motion
