// SPDX-License-Identifier: MIT
// Pose picks the golfer out of each frame's people and makes one track of landmarks. It never mixes
// two people into one skeleton; it smooths nothing and knows nothing of time (that is motion).
#pragma once

#include <optional>
#include <vector>

#include "base/message.hpp"
#include "base/result.hpp"
#include "intake/submission.hpp"

namespace rangecheck::pose {

/// One frame of the golfer. `person` is empty where the golfer was not found, could not be told
/// from someone near, or was found upside down. Points that may be someone else's are missing.
struct TrackFrame {
  std::size_t number = 0;
  std::optional<Duration> time;
  std::optional<intake::Person> person;
};

/// The golfer through one film.
struct Track {
  intake::View view = intake::View::face_on;
  std::vector<TrackFrame> frames;
  std::size_t people_seen = 1;  ///< most people in any one frame
  /// How sure it is that this is the golfer and not another of the people in the film: of films
  /// with this number, about that share are right (fitted to made-up scenes). 1 when alone.
  double certainty = 1;
  bool sides_exchanged = false;  ///< the estimator had taken front for back: pairs were put right
  std::vector<Message> notes;    ///< for the report: other people, mended or dropped frames
};

/// Follows the golfer. People are linked from frame to frame by place, speed, size and posture;
/// where two are so near that either could be meant, nobody's path is guessed. Identities that the
/// estimator gives are not used: they change where people cross. The golfer is whoever swings a
/// club or stands at address, large, in the middle and most of the time. Frames that show the
/// golfer upside down are left out. An error when there is no person, when it is not clear who of
/// several is the golfer, or when every frame is upside down.
Result<Track> follow_golfer(const intake::FilmedView& view);

}  // namespace rangecheck::pose
