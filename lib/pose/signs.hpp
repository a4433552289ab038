// SPDX-License-Identifier: MIT
// What tells the golfer from other people in the film.
#pragma once

#include <array>
#include <string_view>

#include "intake/submission.hpp"
#include "pose/people.hpp"

namespace rangecheck::pose {

/// What is seen of one person over the film.
struct Signs {
  double height_px = 0;     ///< mean height in the picture
  double presence = 0;      ///< share of the film's frames
  double aside = 0;         ///< from the middle of the picture, over half its width
  double travel = 0;        ///< how far along the picture, over height
  double hands_joined = 0;  ///< share of frames, of those in which both hands are seen
  double hands_range = 0;   ///< of joined hands about the hips, over height
  double hands_speed = 0;   ///< greatest of joined hands about the hips, heights a second
  double whole = 0;         ///< share of frames with head and feet
  double bent = 0;          ///< shoulders beside the hips in the picture, over height
  double legs = 0;          ///< hips over ankles, over height: large for one who bends over
  double faces_ball = 0;    ///< 1: turned as a golfer is in this view, −1: the other way
};
Signs signs_of(const Sightings& sightings, const Someone& person, const intake::FilmedView& view);

/// How alike the hands of two people move at the same time, up to 1; left may be right. 0 where
/// they hardly move or are hardly seen together. A reflection moves in step.
double in_step(const Sightings& sightings, const Someone& a, const Someone& b);

}  // namespace rangecheck::pose
