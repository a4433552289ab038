// SPDX-License-Identifier: MIT
// Which way a golfer faces, from what does not depend on which side is which.
#pragma once

#include <optional>

#include "base/result.hpp"
#include "pose/side_pairs.hpp"
#include "pose/side_phases.hpp"

namespace rangecheck::pose {

enum class Facing {
  front,        ///< toward the camera
  back,         ///< away from it
  named_front,  ///< not shown by the film: what the estimator says
  named_back
};

/// Of a face-on film. Feet tell, toes lower in the picture than heels; without them the hands,
/// which go to the right of the picture through the ball; else the estimator's names, where those
/// of legs and shoulders agree.
Facing facing_of(const Pairs& pairs, const Phases& phases);

/// An error when the film shows a swing of the other hand: a mirrored picture, or the wrong
/// handedness. Face-on the hands go to the wrong side through the ball; down the line the golfer
/// bends over to the wrong side.
std::optional<Error> other_hand(const Pairs& pairs, const Phases& phases, intake::View view);

}  // namespace rangecheck::pose
