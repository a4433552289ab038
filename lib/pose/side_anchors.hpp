// SPDX-License-Identifier: MIT
// How a golfer stands and turns: on which side of its trail point the lead point of each pair is
// seen at address, at the top and swung through.
#pragma once

#include <memory>
#include <vector>

#include "pose/side_path.hpp"
#include "pose/side_phases.hpp"

namespace rangecheck::pose {

/// What each set of exchanged pairs costs in the frames that tell of it; null elsewhere. All frames
/// of a phase together count as one look: an estimator's errors stay from frame to frame.
/// `from_behind`: a face-on film that shows the golfer's back.
std::vector<std::unique_ptr<SetCosts>> standing_costs(const Pairs& pairs, const Phases& phases,
                                                      intake::View view, bool from_behind);

/// What it costs in each frame that the hands are exchanged: on a grip the lead hand is behind the
/// trail hand along the way that they point. Not at address, which `standing_costs` knows better.
std::vector<float> grip_costs(const Pairs& pairs, const Phases& phases);

}  // namespace rangecheck::pose
