// SPDX-License-Identifier: MIT
#include "posture/generic_pose.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "posture/swing_priors.hpp"

namespace rangecheck::posture {
namespace {

using prior::GenericPosition;

constexpr double radians_per_degree = std::numbers::pi / 180;

/// The row of the table at `phase`, straight between two positions.
GenericPosition at_phase(double phase) {
  const auto at = prior::between_positions(phase);
  const auto &a = prior::generic_positions[at.low], &b = prior::generic_positions[at.low + 1];
  return {at.mix(a.pelvis_turn_deg, b.pelvis_turn_deg),
          at.mix(a.chest_turn_deg, b.chest_turn_deg),
          at.mix(a.pelvis_x, b.pelvis_x),
          at.mix(a.pelvis_y, b.pelvis_y),
          at.mix(a.pelvis_z, b.pelvis_z),
          at.mix(a.trunk_more_upright, b.trunk_more_upright),
          at.mix(a.hands_x, b.hands_x),
          at.mix(a.hands_y, b.hands_y),
          at.mix(a.hands_z, b.hands_z),
          at.mix(a.trail_heel_up, b.trail_heel_up),
          at.mix(a.lead_elbow_down, b.lead_elbow_down),
          at.mix(a.trail_elbow_down, b.trail_elbow_down),
          at.mix(a.shaft_x, b.shaft_x),
          at.mix(a.shaft_y, b.shaft_y),
          at.mix(a.shaft_z, b.shaft_z)};
}

/// Turned open about `axis` (pointing up): the lead end away from the ball.
Point turned_open(const Point& v, const Point& axis, double open_deg) {
  // +Y up, lead at +X, ball at +Z: a positive turn about +Y carries +X toward −Z, which is open.
  return Eigen::AngleAxisd(open_deg * radians_per_degree, axis.normalized()) * v;
}

Point middle(const LandmarkMap<Point>& points, Joint joint) {
  return (*points[lead(joint)] + *points[trail(joint)]) / 2;
}

class Poser {
 public:
  Poser(const LandmarkMap<Point>& address, double stature_m, double phase)
      : address_(address), stature_m_(stature_m), is_(at_phase(phase)), out_(address) {
    out_[centre(Joint::ball)].reset();
  }

  LandmarkMap<Point> pose() {
    hips_and_legs();
    trunk_and_head();
    arms();
    hands_and_club();
    return out_;
  }

 private:
  void hips_and_legs() {
    const Point from = middle(address_, Joint::hip);
    hips_ = from + stature_m_ * Point(is_.pelvis_x, is_.pelvis_y, is_.pelvis_z);
    for (const Side side : {Side::lead, Side::trail}) {
      const LandmarkId hip{side, Joint::hip}, knee{side, Joint::knee};
      out_[hip] = hips_ + turned_open(*address_[hip] - from, Point::UnitY(), is_.pelvis_turn_deg);
      // The knee goes half the way that its hip goes.
      *out_[knee] += (*out_[hip] - *address_[hip]) / 2;
    }
    *out_[trail(Joint::heel)] += Point(0, stature_m_ * is_.trail_heel_up, 0);
    *out_[trail(Joint::ankle)] += Point(0, 0.8 * stature_m_ * is_.trail_heel_up, 0);
  }

  void trunk_and_head() {
    const Point from = middle(address_, Joint::shoulder);
    Point trunk = from - middle(address_, Joint::hip);
    const double length = trunk.norm();
    trunk.z() *= 1 - is_.trunk_more_upright;
    trunk *= length / trunk.norm();
    shoulders_ = hips_ + trunk;
    for (const LandmarkId id : {lead(Joint::shoulder), trail(Joint::shoulder)}) {
      out_[id] = shoulders_ + turned_open(*address_[id] - from, trunk, is_.chest_turn_deg);
    }
    if (out_.has(centre(Joint::mid_spine))) {
      out_[centre(Joint::mid_spine)] = (hips_ + shoulders_) / 2;
    }
    // The head stays behind, and comes round only to the finish.
    const double follows = std::max(0.0, is_.trunk_more_upright);
    for (const Joint joint : {Joint::ear, Joint::eye, Joint::nose}) {
      for (std::size_t i = 0; i < landmark_count; ++i) {
        const LandmarkId id = landmark_at(i);
        if (id.joint != joint || !address_.has(id)) continue;
        const Point neck = *address_[id] - from;
        out_[id] = (1 - follows) * *address_[id] +
                   follows * (shoulders_ + turned_open(neck, Point::UnitY(), is_.chest_turn_deg));
      }
    }
  }

  void arms() {
    hands_ = shoulders_ + stature_m_ * Point(is_.hands_x, is_.hands_y, is_.hands_z);
    const double apart_m = (*address_[lead(Joint::wrist)] - *address_[trail(Joint::wrist)]).norm();
    for (const Side side : {Side::lead, Side::trail}) {
      const LandmarkId wrist{side, Joint::wrist}, elbow{side, Joint::elbow};
      out_[wrist] = hands_ + (side == Side::lead ? -0.5 : 0.5) * apart_m * shaft();
      const Point half = (*out_[wrist] + *out_[{side, Joint::shoulder}]) / 2;
      const double down = side == Side::lead ? is_.lead_elbow_down : is_.trail_elbow_down;
      out_[elbow] = half - Point(0, down * stature_m_, 0);
    }
  }

  Point shaft() const { return Point(is_.shaft_x, is_.shaft_y, is_.shaft_z).normalized(); }

  /// Points of hands and club lie along the shaft as far from the hands as they do at address.
  void hands_and_club() {
    const Point grip = middle(address_, Joint::wrist);
    for (std::size_t i = 0; i < landmark_count; ++i) {
      const LandmarkId id = landmark_at(i);
      const bool held = id.joint >= Joint::thumb_1 ||
                        (id.joint >= Joint::grip_end && id.joint <= Joint::club_toe);
      if (!held || !out_.has(id)) continue;
      const Point away = *address_[id] - grip;
      out_[id] = hands_ + (id.joint == Joint::grip_end ? -1.0 : 1.0) * away.norm() * shaft();
    }
  }

  const LandmarkMap<Point>& address_;
  double stature_m_;
  GenericPosition is_;
  LandmarkMap<Point> out_;
  Point hips_ = Point::Zero(), shoulders_ = Point::Zero(), hands_ = Point::Zero();
};

}  // namespace

LandmarkMap<Point> generic_pose(const LandmarkMap<Point>& address, double stature_m, double phase) {
  return Poser(address, stature_m, phase).pose();
}

}  // namespace rangecheck::posture
