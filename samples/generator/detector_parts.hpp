// SPDX-License-Identifier: MIT
// What the detectors of still and of moving golfers share.
#pragma once

#include "generator/detector.hpp"

namespace rangecheck::samples {

inline constexpr LandmarkId club_points[] = {centre(Joint::ball), centre(Joint::grip_end),
                                             centre(Joint::hosel), centre(Joint::club_toe)};

/// The points of the body and the hands that it finds.
std::vector<LandmarkId> found_by(const Detector& detector);

/// From behind, the trail side hides the far arm, the far leg's knee and the far half of the face.
bool hidden(View view, LandmarkId id);
/// How much wider the bias of hidden points is.
inline constexpr double hidden_factor = 1.6;

/// A series whose neighbours are alike: x' = phi x + noise, with standard deviation 1.
class Shiver {
 public:
  explicit Shiver(Random& random) : value_(random.normal_2d(1)) {}
  Eigen::Vector2d next(Random& random) {
    value_ = correlation * value_ + random.normal_2d(std::sqrt(1 - correlation * correlation));
    return value_;
  }

 private:
  static constexpr double correlation = 0.6;
  Eigen::Vector2d value_;
};

}  // namespace rangecheck::samples
