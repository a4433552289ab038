// SPDX-License-Identifier: MIT
// What an estimator makes of several people whom it would each see rightly alone: where they
// overlap one is lost or gets another's limbs, people come in any order, identities change.
#pragma once

#include "generator/crowd.hpp"

namespace rangecheck::samples {

/// One person through the film, as detected alone; nothing where out of the picture.
struct Appearance {
  std::vector<std::optional<DetectedFrame>> frames;
  std::vector<double> depth_m;  ///< from the camera
};

/// The golfer is the first of `cast`.
std::vector<std::vector<Seen>> detect_crowd(Random& random, const CrowdOptions& options,
                                            const Camera& camera, double rate_hz,
                                            const std::vector<Appearance>& cast);

}  // namespace rangecheck::samples
