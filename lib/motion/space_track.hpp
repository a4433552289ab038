// SPDX-License-Identifier: MIT
// An estimator's points in space through a film.
#pragma once

#include "motion/smooth.hpp"

namespace rangecheck::motion {

/// A film's points in space on its even clock: smoothed as points of the picture are.
struct SpaceTrack {
  // Two pictures of the same points, counted in millimetres: from the front (right, down) and from
  // the side (away, down).
  SmoothTrack front, side;

  /// As SmoothTrack::at.
  LandmarkMap<InstantSpatialPoint> at(Duration time) const;
};

SpaceTrack smooth_space(const pose::Track& track, const Clock& clock);

}  // namespace rangecheck::motion
