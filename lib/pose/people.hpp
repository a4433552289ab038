// SPDX-License-Identifier: MIT
// Who is who through the whole film, also where people cross, are hidden or lost for a while.
#pragma once

#include <vector>

#include "pose/tracklets.hpp"

namespace rangecheck::pose {

/// One person through the film.
struct Someone {
  std::vector<Tracklet> stretches;  ///< in order of time, none at the same time as another

  std::size_t frames() const;
  std::vector<At> seen() const;  ///< of all stretches
  const At& first() const { return stretches.front().seen.front(); }
  const At& last() const { return stretches.back().seen.back(); }
};

/// Joins stretches that are the same person by place, speed, size and posture. Where two would fit
/// nearly as well they stay apart: nobody's path is guessed.
std::vector<Someone> people_of(const Sightings& sightings);

/// Where the person is at `when`: seen, on the way between two sightings, or going on as before for
/// a moment; nothing when that would be a guess.
std::optional<Shape> shape_at(const Sightings& sightings, const Someone& person, double when);

}  // namespace rangecheck::pose
