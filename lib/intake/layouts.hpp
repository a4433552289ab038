// SPDX-License-Identifier: MIT
// Which number in an estimator's list is which joint. Sides are written for a right-handed golfer,
// whose left is the lead side; a left-hander's film is turned over afterwards, once, for all
// dialects.
#pragma once

#include <array>
#include <optional>

#include "base/skeleton.hpp"

namespace rangecheck::intake {

/// What an index stands for; empty for points that we have no use for.
using LayoutPoint = std::optional<LandmarkId>;

inline constexpr LayoutPoint left(Joint joint) { return lead(joint); }
inline constexpr LayoutPoint right(Joint joint) { return trail(joint); }
inline constexpr LayoutPoint middle(Joint joint) { return centre(joint); }
inline constexpr LayoutPoint unused = std::nullopt;

/// The 17 points of the COCO keypoint task.
inline constexpr std::array<LayoutPoint, 17> coco_17 = {
    middle(Joint::nose), left(Joint::eye),      right(Joint::eye),      left(Joint::ear),
    right(Joint::ear),   left(Joint::shoulder), right(Joint::shoulder), left(Joint::elbow),
    right(Joint::elbow), left(Joint::wrist),    right(Joint::wrist),    left(Joint::hip),
    right(Joint::hip),   left(Joint::knee),     right(Joint::knee),     left(Joint::ankle),
    right(Joint::ankle)};

/// The 25 points known as BODY_25.
inline constexpr std::array<LayoutPoint, 25> body_25 = {
    middle(Joint::nose),    middle(Joint::neck),   right(Joint::shoulder), right(Joint::elbow),
    right(Joint::wrist),    left(Joint::shoulder), left(Joint::elbow),     left(Joint::wrist),
    middle(Joint::pelvis),  right(Joint::hip),     right(Joint::knee),     right(Joint::ankle),
    left(Joint::hip),       left(Joint::knee),     left(Joint::ankle),     right(Joint::eye),
    left(Joint::eye),       right(Joint::ear),     left(Joint::ear),       left(Joint::big_toe),
    left(Joint::small_toe), left(Joint::heel),     right(Joint::big_toe),  right(Joint::small_toe),
    right(Joint::heel)};

/// The 33 points with three hand points a side. The middle one of the three points of an eye is its
/// centre; "pinky" and "index" are the knuckles, "thumb" the joint nearer the hand.
inline constexpr std::array<LayoutPoint, 33> points_33_layout = {middle(Joint::nose),
                                                                 unused,
                                                                 left(Joint::eye),
                                                                 unused,
                                                                 unused,
                                                                 right(Joint::eye),
                                                                 unused,
                                                                 left(Joint::ear),
                                                                 right(Joint::ear),
                                                                 unused,
                                                                 unused,
                                                                 left(Joint::shoulder),
                                                                 right(Joint::shoulder),
                                                                 left(Joint::elbow),
                                                                 right(Joint::elbow),
                                                                 left(Joint::wrist),
                                                                 right(Joint::wrist),
                                                                 left(Joint::little_1),
                                                                 right(Joint::little_1),
                                                                 left(Joint::index_1),
                                                                 right(Joint::index_1),
                                                                 left(Joint::thumb_2),
                                                                 right(Joint::thumb_2),
                                                                 left(Joint::hip),
                                                                 right(Joint::hip),
                                                                 left(Joint::knee),
                                                                 right(Joint::knee),
                                                                 left(Joint::ankle),
                                                                 right(Joint::ankle),
                                                                 left(Joint::heel),
                                                                 right(Joint::heel),
                                                                 left(Joint::big_toe),
                                                                 right(Joint::big_toe)};

/// The 21 points of a hand, from the wrist (which the body already has) over the thumb to the
/// little finger, base to tip: index i > 0 is the i-th hand joint of our own order.
inline constexpr std::size_t hand_point_count = 21;
constexpr LayoutPoint hand_point(std::size_t index, Side side) {
  if (index == 0) return unused;
  return LandmarkId{side, static_cast<Joint>(static_cast<std::size_t>(Joint::thumb_1) + index - 1)};
}
static_assert(hand_point(20, Side::lead) == left(Joint::little_4));

}  // namespace rangecheck::intake
