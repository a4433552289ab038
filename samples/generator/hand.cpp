// SPDX-License-Identifier: MIT
#include "generator/hand.hpp"

#include <Eigen/Geometry>
#include <array>

#include "generator/linkage.hpp"

namespace rangecheck::samples {
namespace {

using Eigen::Vector3d;

/// A finger's knuckle along the grip from the middle of the row, toward the head, in statures.
struct Finger {
  Joint knuckle;
  double along;
};
constexpr std::array<Finger, 4> fingers{{{Joint::index_1, 0.017},
                                         {Joint::middle_1, 0.006},
                                         {Joint::ring_1, -0.007},
                                         {Joint::little_1, -0.020}}};

/// From the shaft's axis to the bones of a finger, and of a thumb, that lie on the grip: half the
/// thickness of both. Common practice, no source.
constexpr double finger_from_axis_m = 0.024;
constexpr double thumb_from_axis_m = 0.018;
/// How far round the grip a finger's further joints lie from its knuckle.
constexpr std::array<double, 3> round_deg{70, 140, 185};

Joint next(Joint joint, std::size_t by) {
  return static_cast<Joint>(static_cast<std::size_t>(joint) + by);
}

/// Knuckles lie along the grip on the far side of it from the wrist: the little finger's nearer
/// the grip end, the index finger's nearer the head. The fingers close round it under the palm.
void place_fingers(Points& points, const HeldHand& hand) {
  const Vector3d knuckles = hand.palm + 0.25 * (hand.palm - hand.wrist);
  const Vector3d far = square_to(hand.down, hand.palm - hand.wrist);
  const Vector3d inward = outward(hand.side) * far.cross(hand.down);
  for (const auto& [joint, along] : fingers) {
    const Vector3d knuckle = knuckles + along * hand.stature_m * hand.down;
    points[{hand.side, joint}] = knuckle;
    const Vector3d axis = hand.palm + (knuckle - hand.palm).dot(hand.down) * hand.down;
    for (std::size_t i = 0; i < round_deg.size(); ++i) {
      const double angle = radians(round_deg[i]);
      points[{hand.side, next(joint, i + 1)}] =
          axis + finger_from_axis_m * (std::cos(angle) * far + std::sin(angle) * inward);
    }
  }
}

void place_thumb(Points& points, const HeldHand& hand) {
  const auto [top, trailward] = sides_of_grip(hand.down);
  const double angle = radians(hand.thumb_deg);
  const Vector3d on_grip =
      hand.palm + thumb_from_axis_m * (std::cos(angle) * top + std::sin(angle) * trailward);
  const auto along = [&](double statures) -> Vector3d {
    return statures * hand.stature_m * hand.down;
  };
  points[{hand.side, Joint::thumb_1}] = hand.wrist + 0.3 * (hand.palm - hand.wrist) + along(0.012);
  points[{hand.side, Joint::thumb_2}] = hand.palm + along(0.022);
  points[{hand.side, Joint::thumb_3}] = on_grip + along(0.040);
  points[{hand.side, Joint::thumb_4}] = on_grip + along(0.056);
}

}  // namespace

GripSides sides_of_grip(const Vector3d& down) {
  const Vector3d top = square_to(down, Vector3d::UnitY());
  return {top, down.cross(top)};
}

void place_hand(Points& points, const HeldHand& hand) {
  points[{hand.side, Joint::wrist}] = hand.wrist;
  place_fingers(points, hand);
  place_thumb(points, hand);
}

}  // namespace rangecheck::samples
