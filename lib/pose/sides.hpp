// SPDX-License-Identifier: MIT
// Left and right: which of each pair of landmarks is lead, where an estimator has exchanged them.
#pragma once

#include "pose/golfer.hpp"

namespace rangecheck::pose {

/// From the front, lead is on the target side of the picture. An estimator that takes a face
/// looking down for the back of a head gives every pair the other way round: such frames are put
/// right.
void mend_sides(Track& track);

}  // namespace rangecheck::pose
