// SPDX-License-Identifier: MIT
#include "generator/bystander.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "generator/smooth_path.hpp"

namespace rangecheck::samples {
namespace {

using Eigen::Vector3d;

double radians(double degrees) { return degrees * std::numbers::pi / 180; }

/// Builds a body in axes of its own: columns to the person's left, up, to the front.
class Builder {
 public:
  Builder(const Body& body, const Upright& upright) : body_(body), upright_(upright) {
    const double heading = upright.heading_rad;
    front_ = {std::sin(heading), 0, std::cos(heading)};
    left_ = Vector3d::UnitY().cross(front_);
    const double lean = radians(upright.lean_deg);
    spine_ = std::cos(lean) * Vector3d::UnitY() + std::sin(lean) * front_;
  }

  Points build() {
    points_[centre(Joint::pelvis)] = Vector3d::Zero();
    leg(Side::lead, upright_.lead_leg);
    leg(Side::trail, upright_.trail_leg);
    trunk_and_head();
    arm(Side::lead, upright_.lead_arm);
    arm(Side::trail, upright_.trail_arm);
    const double ankle_m = 0.039 * body_.stature_m;  // Winter 2009, fig. 4.1, from memory
    const double lowest =
        std::min(points_[lead(Joint::ankle)]->y(), points_[trail(Joint::ankle)]->y());
    for (auto& point : points_.values())
      if (point) *point += upright_.place + Vector3d(0, ankle_m - lowest, 0);
    return points_;
  }

 private:
  Vector3d outward(Side side) const { return side == Side::lead ? left_ : Vector3d(-left_); }

  /// Down, swung forward.
  Vector3d swung(double forward_deg) const {
    const double a = radians(forward_deg);
    return -std::cos(a) * Vector3d::UnitY() + std::sin(a) * front_;
  }

  void leg(Side side, const LegHeld& held) {
    const Vector3d hip = body_.hips_m / 2 * outward(side);
    const Vector3d knee = hip + body_.thigh_m * swung(held.forward);
    const Vector3d ankle = knee + body_.shank_m * swung(held.forward - held.knee);
    const Vector3d sole = swung(held.forward - held.knee + 90);  // the foot's own front
    const Vector3d down = swung(held.forward - held.knee);
    points_[{side, Joint::hip}] = hip;
    points_[{side, Joint::knee}] = knee;
    points_[{side, Joint::ankle}] = ankle;
    const Vector3d heel = ankle + 0.03 * body_.stature_m * down - 0.25 * body_.foot_m * sole;
    points_[{side, Joint::heel}] = heel;
    points_[{side, Joint::big_toe}] = heel + body_.foot_m * sole - 0.02 * outward(side);
    points_[{side, Joint::small_toe}] = heel + 0.85 * body_.foot_m * sole + 0.06 * outward(side);
  }

  void trunk_and_head() {
    const Vector3d middle = body_.trunk_m * spine_, up = body_.head * Vector3d::UnitY(),
                   ahead = body_.head * front_, aside = body_.head * left_;
    points_[lead(Joint::shoulder)] = middle + body_.shoulders_m / 2 * left_;
    points_[trail(Joint::shoulder)] = middle - body_.shoulders_m / 2 * left_;
    const Vector3d neck = middle + 0.04 * spine_;
    points_[centre(Joint::neck)] = neck;
    points_[centre(Joint::head_top)] = neck + 0.25 * up + 0.02 * ahead;
    points_[centre(Joint::nose)] = neck + 0.12 * up + 0.12 * ahead;
    for (const Side side : {Side::lead, Side::trail}) {
      const double sign = side == Side::lead ? 1 : -1;
      points_[{side, Joint::eye}] = neck + 0.16 * up + 0.10 * ahead + sign * 0.032 * aside;
      points_[{side, Joint::ear}] = neck + 0.14 * up + 0.02 * ahead + sign * 0.072 * aside;
    }
  }

  void arm(Side side, const ArmHeld& held) {
    const double out = radians(held.out), inward = radians(held.inward),
                 flexion = radians(held.elbow);
    const Vector3d upper = std::cos(out) * swung(held.forward) + std::sin(out) * outward(side);
    const Vector3d to =
        std::cos(inward) * (front_ + 0.5 * Vector3d::UnitY()) - std::sin(inward) * outward(side);
    const Vector3d square = (to - to.dot(upper) * upper).normalized();
    const Vector3d fore = std::cos(flexion) * upper + std::sin(flexion) * square;
    const Vector3d elbow = *points_[{side, Joint::shoulder}] + body_.upper_arm_m * upper;
    const Vector3d wrist = elbow + body_.forearm_m * fore;
    const double hand = body_.palm_m;
    points_[{side, Joint::elbow}] = elbow;
    points_[{side, Joint::wrist}] = wrist;
    points_[{side, Joint::index_1}] = wrist + 1.2 * hand * fore + 0.3 * hand * square;
    points_[{side, Joint::little_1}] = wrist + 1.1 * hand * fore - 0.3 * hand * square;
    points_[{side, Joint::thumb_2}] = wrist + 0.8 * hand * fore + 0.5 * hand * square;
  }

  const Body& body_;
  const Upright& upright_;
  Vector3d front_, left_, spine_;
  Points points_;
};

double between(double a, double b, double share) { return a + share * (b - a); }

ArmHeld between(const ArmHeld& a, const ArmHeld& b, double share) {
  return {between(a.forward, b.forward, share), between(a.out, b.out, share),
          between(a.elbow, b.elbow, share), between(a.inward, b.inward, share)};
}

}  // namespace

Points upright_points(const Body& body, const Upright& upright) {
  return Builder(body, upright).build();
}

Walker::Walker(Random& random, const Vector3d& crossing, double crossing_s,
               const Vector3d& velocity)
    : body_(draw_body(random, Age::adult)),
      crossing_(crossing),
      velocity_(velocity),
      crossing_s_(crossing_s),
      phase_(random.uniform(0, 2 * std::numbers::pi)) {}

Points Walker::points(double time_s) const {
  // Two steps a cycle; a step is about 0.42 of stature (common knowledge, no source).
  const double cycle_m = 0.84 * body_.stature_m;
  const double speed = velocity_.norm();
  const double angle = 2 * std::numbers::pi * speed * time_s / cycle_m + phase_;
  const double swing = 24 * std::min(1.2, std::sqrt(speed / 1.3));
  Upright upright;
  upright.place = crossing_ + (time_s - crossing_s_) * velocity_;
  upright.heading_rad = std::atan2(velocity_.x(), velocity_.z());
  const auto leg = [&](double at) {
    // The knee bends while the thigh comes forward.
    return LegHeld{swing * std::sin(at), 8 + 45 * std::pow(std::max(0.0, std::cos(at)), 2)};
  };
  const auto arm = [&](double at) {
    return ArmHeld{0.8 * swing * std::sin(at) + 2, 6, 20 + 8 * std::sin(at), 10};
  };
  upright.lead_leg = leg(angle);
  upright.trail_leg = leg(angle + std::numbers::pi);
  upright.lead_arm = arm(angle + std::numbers::pi);
  upright.trail_arm = arm(angle);
  return upright_points(body_, upright);
}

Stander::Stander(Random& random, const Vector3d& place, double heading_rad)
    : body_(draw_body(random, Age::adult)),
      gesture_s_(random.uniform(0.5, 1.6)),
      sway_phase_(random.uniform(0, 2 * std::numbers::pi)) {
  upright_.place = place;
  upright_.heading_rad = heading_rad;
  upright_.lean_deg = random.uniform(0, 12);
  // Some stand still most of the time, some hardly ever.
  const double lively = random.uniform(0.1, 0.9);
  gesture_[0] = draw_gesture(random);
  for (std::size_t i = 1; i < gestures; ++i) {
    gesture_[i] = random.chance(lively) ? draw_gesture(random) : gesture_[i - 1];
  }
}

Stander::Gesture Stander::draw_gesture(Random& random) {
  const double off = random.uniform(-8, 8);
  const ArmHeld hanging{5 + off, 7, 15, 0}, on_hip{-15, 35, 95, 80}, in_front{25 + off, 0, 55, 52},
      pointing{60 + 2 * off, 15, 20, 0}, waving{20, 80 + off, 80, 0}, crossed{20 + off, 5, 95, 75};
  switch (static_cast<int>(random.uniform(0, 7))) {
    case 0:
      return {hanging, hanging};
    case 1:
      return {on_hip, hanging};
    case 2:
      return {in_front, in_front};
    case 3:
      return {pointing, hanging};
    case 4:
      return {hanging, waving};
    case 5:
      return {crossed, crossed};
    default:
      return {hanging, pointing};
  }
}

Points Stander::points(double time_s) const {
  const double place = std::max(0.0, time_s / gesture_s_ + 4);
  const auto before = std::min(static_cast<std::size_t>(place), gestures - 2);
  const double share = smooth_step(2 * (place - static_cast<double>(before)));
  Upright upright = upright_;
  upright.lead_arm = between(gesture_[before].lead, gesture_[before + 1].lead, share);
  upright.trail_arm = between(gesture_[before].trail, gesture_[before + 1].trail, share);
  const double sway = std::sin(2 * std::numbers::pi * time_s / 3.1 + sway_phase_);
  upright.lead_leg = {2 + sway, 4 + 3 * sway};
  upright.trail_leg = {2 - sway, 4 - 3 * sway};
  upright.place.x() += 0.02 * sway;
  return upright_points(body_, upright);
}

}  // namespace rangecheck::samples
