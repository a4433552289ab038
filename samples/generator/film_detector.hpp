// SPDX-License-Identifier: MIT
// What a pose estimator would make of a golfer who moves: as `detect`, and besides a bias that
// changes with the posture, limbs that pass behind the body, blur, jumps and gaps.
#pragma once

#include <span>

#include "generator/detector.hpp"

namespace rangecheck::samples {

/// One picture's golfer.
struct Instant {
  Points points, velocity;  ///< metres, metres a second
  double phase = 0;         ///< of the swing: 0 standing at address, 2 impact, 5 finish
};

std::vector<DetectedFrame> detect_moving(Random& random, const Detector& detector, View view,
                                         const Camera& camera, std::span<const Instant> instants);

}  // namespace rangecheck::samples
