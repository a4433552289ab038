// SPDX-License-Identifier: MIT
#include "generator/figure.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <tuple>

#include "generator/linkage.hpp"
#include "generator/smooth_path.hpp"

namespace rangecheck::samples {
namespace {

using Eigen::AngleAxisd;
using Eigen::Matrix3d;
using Eigen::Vector3d;

/// Wrists, hands and club.
bool is_held(LandmarkId id) {
  return id.joint == Joint::wrist || id.joint >= Joint::thumb_1 ||
         (id.joint >= Joint::grip_end && id.joint <= Joint::club_toe);
}

constexpr LandmarkId head_points[] = {lead(Joint::ear),    trail(Joint::ear),
                                      lead(Joint::eye),    trail(Joint::eye),
                                      centre(Joint::nose), centre(Joint::head_top)};

Vector3d middle(const Points& points, Joint joint) {
  return (*points[lead(joint)] + *points[trail(joint)]) / 2;
}

/// The turn that brings one direction onto another by the shortest way.
Matrix3d onto(const Vector3d& from, const Vector3d& to) {
  return Eigen::Quaterniond::FromTwoVectors(from, to).toRotationMatrix();
}

Matrix3d head_axes(const Dofs& dofs) {
  return (AngleAxisd(radians(dofs[Dof::head_tilt]), Vector3d::UnitZ()) *
          AngleAxisd(radians(dofs[Dof::head_turn]), Vector3d::UnitY()) *
          AngleAxisd(radians(dofs[Dof::gaze_down]), Vector3d::UnitX()))
      .toRotationMatrix();
}

/// Direction level with the ground, from Z to X, in the plane of a leg bent at its knee.
double knee_yaw(const Points& points, Side side) {
  const Vector3d& hip = *points[{side, Joint::hip}];
  const Vector3d leg = *points[{side, Joint::ankle}] - hip;
  const Vector3d aside = square_to(leg, *points[{side, Joint::knee}] - hip);
  const Vector3d level = aside - aside.y() / leg.y() * leg;
  return std::atan2(level.x(), level.z());
}

}  // namespace

Figure::Figure(const Golfer& golfer) : golfer_(golfer) {
  read_legs();
  read_trunk();
  read_arms();
  read_head();
}

void Figure::read_legs() {
  const Points& points = golfer_.points;
  lead_knee_yaw_ = knee_yaw(points, Side::lead);
  trail_knee_yaw_ = knee_yaw(points, Side::trail);
  pelvis_ = middle(points, Joint::hip);
  const Vector3d line = *points[lead(Joint::hip)] - *points[trail(Joint::hip)];
  address_[Dof::pelvis_turn] = degrees(std::atan2(-line.z(), line.x()));
  address_[Dof::pelvis_tilt] = degrees(std::asin(line.y() / line.norm()));
}

void Figure::read_trunk() {
  const Points& points = golfer_.points;
  spine_ = (middle(points, Joint::shoulder) - pelvis_).normalized();
  shoulder_line_ = *points[lead(Joint::shoulder)] - *points[trail(Joint::shoulder)];
  address_[Dof::forward_bend] = degrees(std::atan2(spine_.z(), spine_.y()));
  address_[Dof::side_bend] = degrees(std::atan2(-spine_.x(), spine_.y()));
}

void Figure::read_arms() {
  const Points& points = golfer_.points;
  Points unused;
  const Chest chest = place_trunk(address_, unused);
  for (const auto& [side, flexion, x, y, z] :
       {std::tuple{Side::lead, Dof::lead_elbow, Dof::lead_elbow_x, Dof::lead_elbow_y,
                   Dof::lead_elbow_z},
        {Side::trail, Dof::trail_limit, Dof::trail_elbow_x, Dof::trail_elbow_y,
         Dof::trail_elbow_z}}) {
    address_[flexion] = bend_deg(points, side, Joint::shoulder, Joint::elbow, Joint::wrist);
    const Vector3d& shoulder = *points[{side, Joint::shoulder}];
    const Vector3d pole =
        chest.axes.transpose() * square_to(*points[{side, Joint::wrist}] - shoulder,
                                           *points[{side, Joint::elbow}] - shoulder);
    address_[x] = pole.x();
    address_[y] = pole.y();
    address_[z] = pole.z();
  }
  const Vector3d& wrist = *points[lead(Joint::wrist)];
  const Vector3d shaft =
      (*points[centre(Joint::hosel)] - *points[centre(Joint::grip_end)]).normalized();
  slope_ = std::atan2(-shaft.y(), shaft.z());
  club_.col(0) = shaft;
  club_.col(1) = square_to(shaft, *points[lead(Joint::elbow)] - wrist);
  club_.col(2) = club_.col(0).cross(club_.col(1));
  aim_club(address_, club_);
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const auto id = landmark_at(i);
    if (is_held(id)) in_hands_[id] = club_.transpose() * (*points[id] - wrist);
  }
  // At address the trail elbow may be as straight as it likes.
  trail_elbow_deg_ = address_[Dof::trail_limit];
  address_[Dof::trail_limit] = std::min(trail_elbow_deg_ - 1, 16.0);
  set_arms(address_, chest, wrist);
}

void Figure::read_head() {
  const Points& points = golfer_.points;
  address_[Dof::head_turn] = golfer_.address.head_turn_deg;
  address_[Dof::head_tilt] = golfer_.address.head_tilt_deg;
  address_[Dof::gaze_down] = golfer_.address.gaze_down_deg;
  head_middle_ = middle(points, Joint::ear);
  for (const auto id : head_points) {
    in_head_[id] = head_axes(address_).transpose() * (*points[id] - head_middle_);
  }
}

std::optional<Points> Figure::pose(const Dofs& dofs) const {
  Points points;
  points[centre(Joint::ball)] = golfer_.points[centre(Joint::ball)];
  place_feet(dofs, points);
  if (!place_legs(dofs, points)) return std::nullopt;
  const Chest chest = place_trunk(dofs, points);
  if (!place_arms(dofs, chest, points)) return std::nullopt;
  place_head(dofs, chest, points);
  return points;
}

void Figure::place_feet(const Dofs& dofs, Points& points) const {
  for (const auto side : {Side::lead, Side::trail}) {
    const Vector3d& toe = *golfer_.points[{side, Joint::big_toe}];
    const Vector3d along = toe - *golfer_.points[{side, Joint::heel}];
    const Vector3d sideways = along.cross(Vector3d::UnitY()).normalized();
    const double heel = dofs[side == Side::lead ? Dof::lead_heel : Dof::trail_heel];
    const double turn = side == Side::lead ? 0 : dofs[Dof::trail_foot];
    const Matrix3d moved =
        (AngleAxisd(radians(turn), Vector3d::UnitY()) * AngleAxisd(radians(-heel), sideways))
            .toRotationMatrix();
    for (const auto joint : {Joint::heel, Joint::ankle, Joint::big_toe, Joint::small_toe}) {
      points[{side, joint}] = toe + moved * (*golfer_.points[{side, joint}] - toe);
    }
  }
}

/// The lift of the pelvis that the leg can follow: as wished until the leg is nearly straight.
double Figure::allowed_lift(Side side, const Vector3d& hip, const Points& points,
                            double lift_m) const {
  constexpr double straight_deg = 2, nearly_deg = 11.5;
  const Body& body = golfer_.body;
  const Vector3d& ankle = *points[{side, Joint::ankle}];
  const double aside = std::hypot(hip.x() - ankle.x(), hip.z() - ankle.z());
  const auto highest = [&](double flexion) {
    const double leg = reach(body.thigh_m, body.shank_m, radians(flexion));
    return ankle.y() + std::sqrt(std::max(leg * leg - aside * aside, 0.0)) - hip.y();
  };
  // No address is so straight that this would move it.
  const double free = highest(nearly_deg);
  return free + held_below(lift_m - free, highest(straight_deg) - free);
}

bool Figure::place_legs(const Dofs& dofs, Points& points) const {
  const Body& body = golfer_.body;
  const Vector3d half = across(dofs[Dof::pelvis_turn], dofs[Dof::pelvis_tilt]) * body.hips_m / 2;
  Vector3d pelvis = pelvis_ + Vector3d(dofs[Dof::pelvis_x], 0, dofs[Dof::pelvis_z]);
  double lift = dofs[Dof::pelvis_y];
  for (const auto side : {Side::trail, Side::lead}) {
    lift = allowed_lift(side, pelvis + outward(side) * half, points, lift);
  }
  pelvis.y() += lift;
  const double trail_foot = radians(dofs[Dof::trail_foot]);
  for (const auto side : {Side::lead, Side::trail}) {
    const double yaw = side == Side::lead
                           ? lead_knee_yaw_ - radians(dofs[Dof::lead_knee_in])
                           : trail_knee_yaw_ + radians(dofs[Dof::trail_knee_in]) + trail_foot;
    const Vector3d hip = pelvis + outward(side) * half;
    const auto knee = bent_joint(hip, *points[{side, Joint::ankle}], body.thigh_m, body.shank_m,
                                 {std::sin(yaw), 0, std::cos(yaw)});
    if (!knee) return false;
    points[{side, Joint::hip}] = hip;
    points[{side, Joint::knee}] = *knee;
  }
  points[centre(Joint::pelvis)] = pelvis;
  return true;
}

Figure::Chest Figure::place_trunk(const Dofs& dofs, Points& points) const {
  const Body& body = golfer_.body;
  const Vector3d spine = Vector3d(-std::tan(radians(dofs[Dof::side_bend])), 1,
                                  std::tan(radians(dofs[Dof::forward_bend])))
                             .normalized();
  const Vector3d pelvis = points[centre(Joint::pelvis)].value_or(pelvis_);
  const Vector3d shoulders = pelvis + body.trunk_m * spine;
  const Vector3d turned =
      onto(spine_, spine) * (AngleAxisd(radians(dofs[Dof::chest_turn]), spine_) * shoulder_line_);
  Chest chest;
  chest.axes.col(1) = spine;
  chest.axes.col(0) = square_to(spine, turned);
  chest.axes.col(2) = chest.axes.col(0).cross(spine);
  const Vector3d half = AngleAxisd(radians(dofs[Dof::chest_tilt]), chest.axes.col(2)) * turned / 2;
  chest.lead_shoulder = shoulders + half;
  chest.trail_shoulder = shoulders - half;
  points[lead(Joint::shoulder)] = chest.lead_shoulder;
  points[trail(Joint::shoulder)] = chest.trail_shoulder;
  points[centre(Joint::mid_spine)] = pelvis + 0.5 * body.trunk_m * spine;
  points[centre(Joint::neck)] = shoulders + 0.02 * body.stature_m * spine;
  return chest;
}

/// Where it was at address as far as the neck lets it, or along with the chest, or in between.
void Figure::place_head(const Dofs& dofs, const Chest& chest, Points& points) const {
  const Vector3d& neck = *points[centre(Joint::neck)];
  const Vector3d at_address = head_middle_ - *golfer_.points[centre(Joint::neck)];
  const Vector3d held = (head_middle_ - neck).normalized();
  const Vector3d along = (chest.axes.col(1) + 0.12 * chest.axes.col(2)).normalized();
  const double free = dofs[Dof::head_free];
  const Vector3d head = neck + at_address.norm() * ((1 - free) * held + free * along).normalized();
  for (const auto id : head_points) points[id] = head + head_axes(dofs) * *in_head_[id];
}

}  // namespace rangecheck::samples
