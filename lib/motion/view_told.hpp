// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

#include "pose/golfer.hpp"

namespace rangecheck::motion {

/// What the feet tell of where the camera stood: seen from the front they stand beside each other
/// and turn out either way, seen down the line they stand one behind the other and both point to
/// the ball.
struct ViewTold {
  std::optional<intake::View> view;  ///< nothing: from somewhere between, or too few points
  /// Seen down the line, the toes point to the left of the picture: a left-hander's film read as a
  /// right-hander's, or a camera on the target's side.
  bool toes_left = false;
};

/// From medians over the film; the track may have been followed as either view.
ViewTold view_told(const pose::Track& track);

}  // namespace rangecheck::motion
