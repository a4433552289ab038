// SPDX-License-Identifier: MIT
// Which frames of two files show the same moment.
#pragma once

#include <optional>
#include <vector>

#include "base/units.hpp"

namespace rangecheck::intake {

/// How the frames of one file are counted; by number, which increases.
struct FrameCount {
  std::vector<std::size_t> numbers;
  std::vector<std::optional<Duration>> times;  ///< of each
  std::optional<double> frame_rate_hz;
};

struct FrameMatch {
  enum class By { stamps, numbers, rates };
  By by = By::numbers;
  /// For each frame of the film, the index of the other file's frame of the same moment.
  std::vector<std::optional<std::size_t>> other;

  std::size_t matched() const;
};

/// By stamps where both have them and they overlap: the nearest within half a frame of the film. By
/// numbers where both count the same frames, from 0, from 1 or from anywhere; or where the other
/// file has only frames that the film has too and no rate speaks against it. Else by number over
/// rate where both rates are known. Nothing when no frame matches. Nothing is filled in between.
std::optional<FrameMatch> match_frames(const FrameCount& film, const FrameCount& other);

/// The film's frame at this time: by its stamps, else by number over rate; nothing when none is
/// within half a frame, or when the film has neither.
std::optional<std::size_t> frame_at(const FrameCount& film, Duration time);

}  // namespace rangecheck::intake
