// SPDX-License-Identifier: MIT
#include <Eigen/Geometry>
#include <cmath>

#include "generator/golfer.hpp"
#include "generator/hand.hpp"
#include "generator/linkage.hpp"

namespace rangecheck::samples {
namespace {

using Eigen::Vector3d;

constexpr double ball_radius_m = 0.02135;  // Rules of Golf, Equipment Rules 4: 42.67 mm diameter

class Poser {
 public:
  Poser(const Body& body, const Address& address) : body_(body), at_(address) {}

  std::optional<Points> run() {
    feet();
    if (!legs()) return std::nullopt;
    trunk();
    if (!hands_and_club()) return std::nullopt;
    head();
    return points_;
  }

 private:
  double metres(double statures) const { return statures * body_.stature_m; }

  Vector3d foot_direction(Side side, double inward_deg = 0) const {
    const double flare = side == Side::lead ? at_.lead_flare_deg : at_.trail_flare_deg;
    const double angle = radians(flare - inward_deg);
    return {outward(side) * std::sin(angle), 0, std::cos(angle)};
  }

  void feet() {
    const double height = 0.02;  // of heel and toe points above the ground
    const Vector3d line = across(at_.heel_line_deg, 0) * metres(at_.stance_width) / 2;
    for (const auto side : {Side::lead, Side::trail}) {
      const Vector3d along = foot_direction(side);
      const Vector3d outer(outward(side) * along.z(), 0, -outward(side) * along.x());
      const Vector3d heel = outward(side) * line + Vector3d(0, height, 0);
      points_[{side, Joint::heel}] = heel;
      points_[{side, Joint::ankle}] =
          heel + metres(0.031) * along + Vector3d(0, metres(0.0414) - height, 0);
      points_[{side, Joint::big_toe}] = heel + body_.foot_m * along;
      points_[{side, Joint::small_toe}] = heel + body_.foot_m * (0.80 * along + 0.26 * outer);
    }
  }

  /// Hips at the height at which the knees' mean flexion is the wished one, then the knees.
  bool legs() {
    const Vector3d half = across(at_.pelvis_turn_deg, at_.pelvis_tilt_deg) * body_.hips_m / 2;
    const auto hip = [&](Side side, double height) -> Vector3d {
      return Vector3d(metres(at_.pelvis_x), height, metres(at_.pelvis_z)) + outward(side) * half;
    };
    const auto straighter_than_wished = [&](double height) {
      double sum = 0;
      for (const auto side : {Side::lead, Side::trail}) {
        const double distance = (hip(side, height) - *points_[{side, Joint::ankle}]).norm();
        sum += flexion_at(body_.thigh_m, body_.shank_m, distance).value_or(0);
      }
      return 2 * radians(at_.knee_flexion_deg) - sum;
    };
    const auto height = root(straighter_than_wished, metres(0.35), metres(0.60));
    if (!height) return false;
    for (const auto side : {Side::lead, Side::trail}) {
      const double in = side == Side::lead ? at_.lead_knee_in_deg : at_.trail_knee_in_deg;
      points_[{side, Joint::hip}] = hip(side, *height);
      const auto knee = bent_joint(*points_[{side, Joint::hip}], *points_[{side, Joint::ankle}],
                                   body_.thigh_m, body_.shank_m, foot_direction(side, in));
      if (!knee) return false;
      points_[{side, Joint::knee}] = *knee;
    }
    return true;
  }

  void trunk() {
    const Vector3d pelvis = (*points_[lead(Joint::hip)] + *points_[trail(Joint::hip)]) / 2;
    spine_ =
        Vector3d(-std::tan(radians(at_.side_bend_deg)), 1, std::tan(radians(at_.forward_bend_deg)))
            .normalized();
    shoulders_ = pelvis + body_.trunk_m * spine_;
    const Vector3d half =
        across(at_.shoulder_turn_deg, at_.shoulder_tilt_deg) * body_.shoulders_m / 2;
    points_[centre(Joint::pelvis)] = pelvis;
    points_[centre(Joint::mid_spine)] = pelvis + 0.5 * body_.trunk_m * spine_;
    points_[lead(Joint::shoulder)] = shoulders_ + half;
    points_[trail(Joint::shoulder)] = shoulders_ - half;
    points_[centre(Joint::neck)] = shoulders_ + metres(0.02) * spine_;
  }

  /// The club from the middle of the hands, given their height: direction from hands to head, and
  /// the wrists that hold it.
  struct Held {
    Vector3d grip, hosel, down;
    Vector3d lead_palm, trail_palm, lead_wrist, trail_wrist;
  };

  Held held_at(double height) const {
    const double half_gap = at_.grip.half_gap_m;
    constexpr double hosel_height = 0.03;  // above the ground
    constexpr double hosel_behind = 0.03;  // the face touches the ball, the hosel sits behind
    Held held;
    held.grip = {ball_x() + metres(at_.hands_ahead), height,
                 shoulders_.z() + metres(at_.hands_out)};
    const double drop = height - hosel_height;
    held.hosel = {ball_x() - hosel_behind, hosel_height,
                  held.grip.z() + drop / std::tan(radians(at_.shaft_lie_deg))};
    held.down = (held.hosel - held.grip).normalized();
    held.lead_palm = held.grip - half_gap * held.down;
    held.trail_palm = held.grip + half_gap * held.down;
    // The trail wrist is bent back more, so it lies more along the shaft.
    held.lead_wrist = wrist(held, Side::lead, held.lead_palm, 0.55);
    held.trail_wrist = wrist(held, Side::trail, held.trail_palm, 0.80);
    return held;
  }

  double ball_x() const {
    const Vector3d& from = *points_[trail(Joint::heel)];
    return from.x() + at_.ball_fraction * (points_[lead(Joint::heel)]->x() - from.x());
  }

  /// `along` is the share of the palm's length that lies along the shaft, toward the grip end.
  Vector3d wrist(const Held& held, Side side, const Vector3d& palm, double along) const {
    const Vector3d to_shoulder = *points_[{side, Joint::shoulder}] - palm;
    const Vector3d unturned = (to_shoulder - to_shoulder.dot(held.down) * held.down).normalized();
    const double turn_deg = side == Side::lead ? at_.grip.lead_turn_deg : at_.grip.trail_turn_deg;
    const Vector3d aside =
        turn_deg == 0 ? unturned
                      : Vector3d(Eigen::AngleAxisd(radians(turn_deg), held.down) * unturned);
    return palm + body_.palm_m * (std::sqrt(1 - along * along) * aside - along * held.down);
  }

  /// Hands at the height at which the lead arm is bent as wished.
  bool hands_and_club() {
    const double arm =
        reach(body_.upper_arm_m, body_.forearm_m, radians(at_.lead_elbow_flexion_deg));
    const auto higher_than_wished = [&](double height) {
      return arm - (held_at(height).lead_wrist - *points_[lead(Joint::shoulder)]).norm();
    };
    const auto height = root(higher_than_wished, metres(0.2), shoulders_.y() - metres(0.1));
    if (!height) return false;
    const Held held = held_at(*height);
    place_club(held);
    place_hand(points_, {Side::lead, held.lead_wrist, held.lead_palm, held.down,
                         at_.grip.lead_thumb_deg, body_.stature_m});
    place_hand(points_, {Side::trail, held.trail_wrist, held.trail_palm, held.down,
                         at_.grip.trail_thumb_deg, body_.stature_m});
    return place_elbow(Side::lead, at_.lead_elbow_swivel_deg) &&
           place_elbow(Side::trail, at_.trail_elbow_swivel_deg);
  }

  void place_club(const Held& held) {
    constexpr double head_length = 0.075, hosel_to_face_middle = 0.04;
    points_[centre(Joint::grip_end)] = held.grip - 0.12 * held.down;
    points_[centre(Joint::hands_mid)] = held.grip;
    points_[centre(Joint::hosel)] = held.hosel;
    points_[centre(Joint::shaft_mid)] = (held.hosel + *points_[centre(Joint::grip_end)]) / 2;
    points_[centre(Joint::club_toe)] = held.hosel + Vector3d(0, 0.015, head_length);
    points_[centre(Joint::ball)] =
        Vector3d(ball_x(), ball_radius_m, held.hosel.z() + hosel_to_face_middle);
  }

  /// Elbows point down and back beside the body, as hanging arms do.
  bool place_elbow(Side side, double swivel_deg) {
    const Vector3d& shoulder = *points_[{side, Joint::shoulder}];
    const Vector3d& wrist = *points_[{side, Joint::wrist}];
    const Eigen::AngleAxisd swivel(radians(swivel_deg), (wrist - shoulder).normalized());
    const Vector3d pole = swivel * Vector3d(0.5 * outward(side), -0.2, -0.8);
    const auto elbow = bent_joint(shoulder, wrist, body_.upper_arm_m, body_.forearm_m, pole);
    if (elbow) points_[{side, Joint::elbow}] = *elbow;
    return elbow.has_value();
  }

  void head() {
    const double neck_bend = radians(at_.forward_bend_deg + at_.neck_bend_deg);
    const double size = body_.head;
    const Vector3d middle = shoulders_ + metres(0.02) * spine_ +
                            0.195 * size *
                                Vector3d(-0.5 * std::sin(radians(at_.side_bend_deg)),
                                         std::cos(neck_bend), std::sin(neck_bend))
                                    .normalized();
    const Eigen::Matrix3d turned =
        (Eigen::AngleAxisd(radians(at_.head_tilt_deg), Vector3d::UnitZ()) *
         Eigen::AngleAxisd(radians(at_.head_turn_deg), Vector3d::UnitY()) *
         Eigen::AngleAxisd(radians(at_.gaze_down_deg), Vector3d::UnitX()))
            .toRotationMatrix();
    // In the head: X to the lead side, Y to the crown, Z to the face; metres for size 1.
    const auto place = [&](LandmarkId id, double x, double y, double z) {
      points_[id] = middle + size * (turned * Vector3d(x, y, z));
    };
    for (const auto side : {Side::lead, Side::trail}) {
      place({side, Joint::ear}, outward(side) * 0.075, 0, 0);
      place({side, Joint::eye}, outward(side) * 0.032, 0.015, 0.085);
    }
    place(centre(Joint::nose), 0, -0.025, 0.115);
    place(centre(Joint::head_top), 0, 0.135, 0);
  }

  const Body& body_;
  const Address& at_;
  Points points_;
  Vector3d spine_ = Vector3d::Zero(), shoulders_ = Vector3d::Zero();
};

}  // namespace

std::optional<Points> pose(const Body& body, const Address& address) {
  return Poser(body, address).run();
}

}  // namespace rangecheck::samples
