// SPDX-License-Identifier: MIT
// Both arms on one grip. The wrists lie at fixed places on the club, so they follow from how the
// club lies and from how far both arms reach.
#include <Eigen/Geometry>

#include "generator/figure.hpp"
#include "generator/linkage.hpp"
#include "generator/smooth_path.hpp"

namespace rangecheck::samples {
namespace {

using Eigen::AngleAxisd;
using Eigen::Matrix3d;
using Eigen::Vector3d;

/// The lead wrist turns about the line from the lead shoulder to another point when its distances
/// from both are given.
struct Hinge {
  Vector3d from, along, down, front;
  double apart_m;

  Hinge(const Vector3d& lead_shoulder, const Vector3d& other, const Vector3d& spine)
      : from(lead_shoulder) {
    const Vector3d line = other - lead_shoulder;
    apart_m = line.norm();
    along = line / apart_m;
    down = square_to(along, -spine);
    front = along.cross(down);
  }

  double up(const Vector3d& wrist) const {
    return std::atan2((wrist - from).dot(front), (wrist - from).dot(down));
  }

  std::optional<Vector3d> wrist(double from_lead_m, double from_other_m, double up) const {
    const double on_line =
        (from_lead_m * from_lead_m - from_other_m * from_other_m + apart_m * apart_m) /
        (2 * apart_m);
    const double off_squared = from_lead_m * from_lead_m - on_line * on_line;
    if (off_squared <= 0) return std::nullopt;
    return from + on_line * along +
           std::sqrt(off_squared) * (std::cos(up) * down + std::sin(up) * front);
  }
};

/// The club's plane at address: down its slope and square to it, upward.
struct Plane {
  Vector3d down, over;
  explicit Plane(double slope)
      : down(0, -std::sin(slope), std::cos(slope)), over(0, std::cos(slope), std::sin(slope)) {}
};

/// From one direction to another about an axis, degrees.
double roll_to(const Vector3d& axis, const Vector3d& from, const Vector3d& to) {
  const Vector3d start = square_to(axis, from);
  return degrees(std::atan2(axis.cross(start).dot(to), start.dot(to)));
}

}  // namespace

double Figure::arm_reach(double flexion_deg) const {
  return reach(golfer_.body.upper_arm_m, golfer_.body.forearm_m, radians(flexion_deg));
}

Vector3d Figure::shaft(const Dofs& dofs) const {
  const double back = radians(dofs[Dof::club_back]), up = radians(dofs[Dof::club_up]);
  const Plane plane(slope_);
  return std::cos(up) * (std::cos(back) * plane.down - std::sin(back) * Vector3d::UnitX()) +
         std::sin(up) * plane.over;
}

Matrix3d Figure::club(const Dofs& dofs) const {
  Matrix3d axes;
  axes.col(0) = shaft(dofs);
  axes.col(1) = AngleAxisd(radians(dofs[Dof::club_roll]), axes.col(0)) *
                square_to(axes.col(0), Plane(slope_).over);
  axes.col(2) = axes.col(0).cross(axes.col(1));
  return axes;
}

void Figure::aim_club(Dofs& dofs, const Matrix3d& club) const {
  const Plane plane(slope_);
  const Vector3d shaft = club.col(0);
  dofs[Dof::club_back] = degrees(std::atan2(-shaft.x(), shaft.dot(plane.down)));
  dofs[Dof::club_up] = degrees(std::asin(shaft.dot(plane.over)));
  dofs[Dof::club_roll] = roll_to(shaft, plane.over, club.col(1));
}

bool Figure::hold_naturally(Dofs& dofs, std::optional<double> trail_elbow_deg) const {
  constexpr int rounds = 8;  // where the wrist lies depends a little on the roll itself
  Points points;
  place_feet(dofs, points);
  if (!place_legs(dofs, points)) return false;
  const Chest chest = place_trunk(dofs, points);
  for (int round = 0; round < rounds; ++round) {
    if (trail_elbow_deg) {
      const auto span = span_for(dofs, chest, *trail_elbow_deg);
      if (!span) return false;
      dofs[Dof::trail_span] = *span;
    }
    if (!place_arms(dofs, chest, points)) return false;
    const Vector3d forearm = *points[lead(Joint::elbow)] - *points[lead(Joint::wrist)];
    const double wished = roll_to(shaft(dofs), Plane(slope_).over, forearm);
    dofs[Dof::club_roll] += 0.7 * std::remainder(wished - dofs[Dof::club_roll], 360);
  }
  return true;
}

std::optional<double> Figure::span_for(const Dofs& dofs, const Chest& chest,
                                       double trail_elbow_deg) const {
  const Hinge hinge(chest.lead_shoulder, chest.trail_shoulder, chest.axes.col(1));
  const Vector3d between = club(dofs) * *in_hands_[trail(Joint::wrist)];
  const double lead_m = arm_reach(dofs[Dof::lead_elbow]), up = radians(dofs[Dof::arms_up]);
  const double trail_m = arm_reach(trail_elbow_deg);
  constexpr double inside_m = 0.001;
  const double least_m = std::abs(lead_m - hinge.apart_m) + inside_m;
  const double most_m = lead_m + hinge.apart_m - inside_m;
  const auto farther_than_wished = [&](double span_m) {
    const auto wrist = hinge.wrist(lead_m, span_m, up);
    return (wrist.value_or(hinge.from) + between - chest.trail_shoulder).norm() - trail_m;
  };
  return root(farther_than_wished, least_m, most_m);
}

std::optional<Vector3d> Figure::lead_wrist(const Dofs& dofs, const Chest& chest,
                                           const Vector3d& between_wrists) const {
  const Vector3d& spine = chest.axes.col(1);
  const double lead_m = arm_reach(dofs[Dof::lead_elbow]);
  const Hinge wished(chest.lead_shoulder, chest.trail_shoulder, spine);
  const auto wrist = wished.wrist(lead_m, dofs[Dof::trail_span], radians(dofs[Dof::arms_up]));
  if (!wrist) return std::nullopt;
  // The trail arm gives what it can and then draws the hands its way.
  constexpr double straight_deg = 1;
  const double free_m = arm_reach(dofs[Dof::trail_limit]);
  const double wished_m = (*wrist + between_wrists - chest.trail_shoulder).norm();
  const double trail_m = free_m + held_below(wished_m - free_m, arm_reach(straight_deg) - free_m);
  const Hinge held(chest.lead_shoulder, chest.trail_shoulder - between_wrists, spine);
  return held.wrist(lead_m, trail_m, held.up(*wrist));
}

void Figure::set_arms(Dofs& dofs, const Chest& chest, const Vector3d& lead_wrist) const {
  const Hinge hinge(chest.lead_shoulder, chest.trail_shoulder, chest.axes.col(1));
  dofs[Dof::arms_up] = degrees(hinge.up(lead_wrist));
  dofs[Dof::trail_span] = (lead_wrist - chest.trail_shoulder).norm();
}

std::optional<Vector3d> Figure::elbow(const Dofs& dofs, const Chest& chest, Side side,
                                      const Vector3d& wrist) const {
  const bool is_lead = side == Side::lead;
  const auto first = static_cast<std::size_t>(is_lead ? Dof::lead_elbow_x : Dof::trail_elbow_x);
  const auto part = [&](std::size_t i) { return dofs[static_cast<Dof>(first + i)]; };
  const Vector3d pole = chest.axes * Vector3d(part(0), part(1), part(2));
  const Vector3d& shoulder = is_lead ? chest.lead_shoulder : chest.trail_shoulder;
  return bent_joint(shoulder, wrist, golfer_.body.upper_arm_m, golfer_.body.forearm_m, pole);
}

bool Figure::place_arms(const Dofs& dofs, const Chest& chest, Points& points) const {
  const Matrix3d axes = club(dofs);
  const auto wrist = lead_wrist(dofs, chest, axes * *in_hands_[trail(Joint::wrist)]);
  if (!wrist) return false;
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const auto id = landmark_at(i);
    if (in_hands_[id]) points[id] = *wrist + axes * *in_hands_[id];
  }
  for (const auto side : {Side::lead, Side::trail}) {
    points[{side, Joint::elbow}] = elbow(dofs, chest, side, *points[{side, Joint::wrist}]);
    if (!points.has({side, Joint::elbow})) return false;
  }
  return true;
}

std::optional<Matrix3d> Figure::club_at_impact(double hands_x_m, double upright_deg) const {
  const Points& points = golfer_.points;
  const Vector3d along = *points[centre(Joint::hosel)] - *points[centre(Joint::hands_mid)];
  const double x = (points[centre(Joint::hosel)]->x() - hands_x_m) / along.norm();
  if (std::abs(x) > 0.5) return std::nullopt;
  const double level = std::sqrt(1 - x * x), slope = slope_ + radians(upright_deg);
  const Vector3d shaft(x, -level * std::sin(slope), level * std::cos(slope));
  return Eigen::Quaterniond::FromTwoVectors(along, shaft).toRotationMatrix() * club_;
}

bool Figure::strike(Dofs& dofs, double hands_x_m, double upright_deg) const {
  const auto club = club_at_impact(hands_x_m, upright_deg);
  Points points;
  place_feet(dofs, points);
  if (!club || !place_legs(dofs, points)) return false;
  const Vector3d wrist =
      *golfer_.points[centre(Joint::hosel)] - *club * *in_hands_[centre(Joint::hosel)];
  const double arm_m = arm_reach(dofs[Dof::lead_elbow]);
  const auto nearer_than_wished = [&](double bend_deg) {
    dofs[Dof::forward_bend] = bend_deg;
    return arm_m - (wrist - place_trunk(dofs, points).lead_shoulder).norm();
  };
  constexpr double less_deg = 18, more_deg = 12;
  const double usual = address_[Dof::forward_bend];
  const auto bend = root(nearer_than_wished, usual - less_deg, usual + more_deg);
  if (!bend) return false;
  dofs[Dof::forward_bend] = *bend;
  const Chest chest = place_trunk(dofs, points);
  const Vector3d between = *club * *in_hands_[trail(Joint::wrist)];
  const double trail_m = (wrist + between - chest.trail_shoulder).norm();
  if (trail_m > arm_reach(dofs[Dof::trail_limit])) return false;
  aim_club(dofs, *club);
  set_arms(dofs, chest, wrist);
  return true;
}

}  // namespace rangecheck::samples
