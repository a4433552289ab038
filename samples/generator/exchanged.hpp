// SPDX-License-Identifier: MIT
// Films as estimators give them that mistake left for right: whole bodies, limbs or single pairs,
// for the whole film or for some frames, with the truth of each.
#pragma once

#include <bitset>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "generator/detector.hpp"

namespace rangecheck::samples {

/// Which points come under each other's names.
enum class Part { body, legs, arms, feet, knees, hips, elbows, shoulders, hands, face };
inline constexpr Part all_parts[] = {Part::body,  Part::legs, Part::arms,   Part::feet,
                                     Part::knees, Part::hips, Part::elbows, Part::shoulders,
                                     Part::hands, Part::face};
/// In which frames.
enum class When {
  always,
  stretch,   ///< one stretch of a tenth to a half of the film
  flicker,   ///< every other frame, or every third, of such a stretch
  crossing,  ///< from where the part's points lie near each other in the picture to where they do
             ///< again, and back and forth about it
  top,       ///< about the frame named `top`
  finish     ///< from the frame named `finish` on
};
inline constexpr When all_times[] = {When::always,   When::stretch, When::flicker,
                                     When::crossing, When::top,     When::finish};
std::string_view name_of(Part part);
std::string_view name_of(When when);

/// Landmarks, by index_of.
using Landmarks = std::bitset<landmark_count>;

struct Exchanged {
  std::vector<DetectedFrame> frames;
  std::vector<Landmarks> exchanged;  ///< of each frame: those that carry the other side's name
};

/// Frames of the film in which the golfer is at the top and done; some at random when absent.
struct Moments {
  std::optional<std::size_t> top, finish;
};

Exchanged exchange(Random& random, std::span<const DetectedFrame> frames, Part part, When when,
                   const Moments& moments);

/// Takes away single points: each in `share` of the frames, and one point of the limbs for a
/// stretch.
void lose_points(Random& random, std::vector<DetectedFrame>& frames, double share);

}  // namespace rangecheck::samples
