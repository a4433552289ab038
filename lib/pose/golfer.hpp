// SPDX-License-Identifier: MIT
// Pose picks the golfer out of each frame's people and makes one track of landmarks. It never mixes
// two people into one skeleton; it smooths nothing and knows nothing of time (that is motion).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "intake/submission.hpp"

namespace rangecheck::pose {

/// One frame of the golfer. `person` is empty where the golfer was not found, or was found upside
/// down.
struct TrackFrame {
  std::size_t number = 0;
  std::optional<Duration> time;
  std::optional<intake::Person> person;
};

/// The golfer through one film.
struct Track {
  intake::View view = intake::View::face_on;
  std::vector<TrackFrame> frames;
  std::size_t people_seen = 1;     ///< most people in any one frame
  bool sides_exchanged = false;    ///< the estimator had taken front for back: pairs were put right
  std::vector<std::string> notes;  ///< for the report: other people, mended or dropped frames
};

/// Follows the golfer: people are linked from frame to frame by nearness of their bodies in units
/// of their size, and the chain that is longest and largest wins. Frames that show the golfer
/// upside down are left out. An error when no person, when two people are as likely to be the
/// golfer, or when every frame is upside down.
Result<Track> follow_golfer(const intake::FilmedView& view);

}  // namespace rangecheck::pose
