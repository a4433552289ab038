// SPDX-License-Identifier: MIT
#pragma once

#include "pose/golfer.hpp"

namespace rangecheck::pose {

/// Empties the frames in which the golfer is upside down: an estimator that took the body for its
/// mirror image on the ground. How many these were. To be done after the golfer was chosen: a
/// bystander must not win because the golfer's frames fell away.
std::size_t drop_upside_down(Track& track);

}  // namespace rangecheck::pose
