// SPDX-License-Identifier: MIT
#include "posture/generic_pose.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "close.hpp"
#include "posture/body.hpp"

using namespace rangecheck;
using posture::Point;

namespace {

constexpr double stature_m = 1.75;

LandmarkMap<Point> address() {
  LandmarkMap<Point> out;
  for (const LandmarkId id : posture::body_joints())
    out[id] = posture::address_place(id, stature_m);
  return out;
}

double open_deg(const LandmarkMap<Point>& points, Joint joint) {
  const Point line = *points[lead(joint)] - *points[trail(joint)];
  return std::atan2(-line.z(), line.x()) * 180 / M_PI;
}

double length(const LandmarkMap<Point>& points, LandmarkId a, LandmarkId b) {
  return (*points[a] - *points[b]).norm();
}

}  // namespace

TEST_CASE("a generic golfer is at address where he was") {
  const auto from = address();
  const auto pose = posture::generic_pose(from, stature_m, 0);
  for (const Joint joint : {Joint::hip, Joint::knee, Joint::shoulder, Joint::heel, Joint::ear})
    CHECK_CLOSE((*pose[lead(joint)] - *from[lead(joint)]).norm(), 0, 1e-9);
}

TEST_CASE("a generic golfer turns back, then through") {
  const auto top = posture::generic_pose(address(), stature_m, 3);
  CHECK_CLOSE(open_deg(top, Joint::hip), -45, 1e-6);
  // The chest's 88 degrees are about the leaning trunk: seen from above a little less or more.
  CHECK(open_deg(top, Joint::shoulder) < -80);
  CHECK(top[lead(Joint::wrist)]->y() > top[lead(Joint::shoulder)]->y());
  const auto impact = posture::generic_pose(address(), stature_m, 6);
  CHECK_CLOSE(open_deg(impact, Joint::hip), 35, 1e-6);
  const auto between = posture::generic_pose(address(), stature_m, 2.5);
  CHECK_CLOSE(open_deg(between, Joint::hip), -37.5, 1e-6);
}

TEST_CASE("a generic golfer keeps hips and shoulders as wide as they are") {
  const auto from = address();
  for (const double phase : {1.0, 3.0, 6.0, 9.0}) {
    const auto pose = posture::generic_pose(from, stature_m, phase);
    for (const Joint joint : {Joint::hip, Joint::shoulder})
      CHECK_CLOSE(length(pose, lead(joint), trail(joint)), length(from, lead(joint), trail(joint)),
                  1e-9);
  }
}
