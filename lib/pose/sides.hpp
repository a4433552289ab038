// SPDX-License-Identifier: MIT
// Left and right: which of each pair of landmarks is lead, where an estimator has exchanged them.
#pragma once

#include <optional>

#include "base/result.hpp"
#include "pose/golfer.hpp"

namespace rangecheck::pose {

/// Puts pairs right that the estimator has exchanged: whole bodies, limbs or single pairs, in some
/// frames or in all. What tells is how each pair goes on from frame to frame, and on which side its
/// lead point is seen at address, at the top and swung through. Where that leaves it open, the
/// points are left out; where they lie in one place it does not matter and they stay. Points in
/// space go with those in the picture, but none are left where the estimator had taken a golfer's
/// front for the back: their depth is neither right nor mirrored.
/// An error when the film shows a swing of the other hand (a mirrored picture, or the wrong
/// handedness), or when most of it would have to be left out.
std::optional<Error> mend_sides(Track& track);

}  // namespace rangecheck::pose
