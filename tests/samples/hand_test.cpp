// SPDX-License-Identifier: MIT
#include "generator/hand.hpp"

#include <Eigen/Geometry>

#include "close.hpp"
#include "generator/drawn.hpp"

namespace rangecheck {
namespace {

using samples::Points;

double from_shaft_m(const Points& points, LandmarkId id) {
  const Eigen::Vector3d& grip = *points[centre(Joint::grip_end)];
  const Eigen::Vector3d down = (*points[centre(Joint::hosel)] - grip).normalized();
  return (*points[id] - grip).cross(down).norm();
}

}  // namespace

TEST_CASE("made-up hands have all their points and close round the grip") {
  for (const auto kind :
       {samples::GripKind::weak, samples::GripKind::neutral, samples::GripKind::strong}) {
    samples::Options options;
    options.grip = kind;
    const Points points = samples::draw(5, options).golfer.points;
    for (const Side side : {Side::lead, Side::trail}) {
      for (auto joint = static_cast<std::size_t>(Joint::thumb_1);
           joint <= static_cast<std::size_t>(Joint::little_4); ++joint) {
        const LandmarkId id{side, static_cast<Joint>(joint)};
        CAPTURE(key_of(id));
        REQUIRE(points.has(id));
        CHECK(from_shaft_m(points, id) < 0.06);
      }
      CHECK_CLOSE(from_shaft_m(points, {side, Joint::thumb_4}), 0.018, 1e-9);
      CHECK_CLOSE(from_shaft_m(points, {side, Joint::index_3}), 0.024, 1e-9);
    }
  }
}

TEST_CASE("without a grip kind all hold the club alike") {
  samples::Options options;
  const auto one = samples::grip_of(1, options), other = samples::grip_of(2, options);
  CHECK(one.lead_turn_deg == 0);
  CHECK(other.lead_turn_deg == 0);
  options.grip = samples::GripKind::strong;
  CHECK(samples::grip_of(1, options).lead_turn_deg != samples::grip_of(2, options).lead_turn_deg);
}

TEST_CASE("a detector of hands finds twenty points on each") {
  samples::Options options;
  options.detector.hands = true;
  options.detector.skeleton = samples::Skeleton::coco_17;
  const auto frame = samples::draw(3, options).films.front().frames.front();
  int fingers = 0;
  for (std::size_t i = 0; i < landmark_count; ++i) {
    fingers += landmark_at(i).joint >= Joint::thumb_1 && frame.image[landmark_at(i)];
  }
  CHECK(fingers == 40);
}

}  // namespace rangecheck
