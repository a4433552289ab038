// SPDX-License-Identifier: MIT
// Where people overlap, an estimator may give one person's limbs to another: those are not kept.
#pragma once

#include <array>
#include <vector>

#include "pose/people.hpp"

namespace rangecheck::pose {

/// What of one frame of a person is somebody else's, or may be.
struct Foreign {
  At at;
  std::array<bool, part_count> part{};
  bool whole = false;  ///< so much of it that nothing can be kept
};

/// Looks at `people[whose]` in the frames in which others overlap: parts that jump away from where
/// they were while the rest stays, and parts that lie where somebody else's are. Those frames in
/// which something was found.
std::vector<Foreign> foreign_parts(const Sightings& sightings, const std::vector<Someone>& people,
                                   std::size_t whose);

/// Takes the part's landmarks, hand included, out of the person.
void remove_part(intake::Person& person, Part part);

}  // namespace rangecheck::pose
