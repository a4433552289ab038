// SPDX-License-Identifier: MIT
// The same person from frame to frame, as long as there is no doubt: a stretch ends where two
// people come so near to each other that the next frame could be either.
#pragma once

#include <vector>

#include "pose/shape.hpp"

namespace rangecheck::pose {

/// One person in one frame.
struct At {
  std::size_t frame = 0, person = 0;
};

/// Everybody in the film as shapes, and the spacing of frames.
struct Sightings {
  std::vector<std::vector<Shape>> frames;  ///< index of a person as in the film's frame
  std::vector<double> when;                ///< of each frame, in usual steps from frame to frame
  double step_s = 1.0 / 30;  ///< the usual step; that of a 30 Hz film where nothing tells

  const Shape& shape(const At& at) const { return frames[at.frame][at.person]; }
};
/// `rate_hz`: of the real scene, where it is known.
Sightings sightings_of(const intake::Film& film, std::optional<double> rate_hz);

/// Where someone is at one end of a stretch, and how fast he moves there.
struct End {
  Shape shape;
  double when = 0;
  Offset speed;  ///< pixels a step
};

/// One person through neighbouring frames.
struct Tracklet {
  std::vector<At> seen;  ///< in order of frames
  End first, last;
  double height_px = 0;  ///< mean
};

/// Stretches without doubt. Parts of bodies are in none; of two that are nearly the same in one
/// frame only the surer is used.
std::vector<Tracklet> tracklets_of(const Sightings& sightings);

}  // namespace rangecheck::pose
