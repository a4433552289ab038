// SPDX-License-Identifier: MIT
#include <Eigen/Geometry>
#include <cmath>
#include <numbers>

#include "generator/golfer.hpp"

namespace rangecheck::samples {
namespace {

using Eigen::Vector3d;

constexpr double inches_per_metre = 1 / 0.0254;

double degrees(double radians) { return radians * 180 / std::numbers::pi; }

struct Reader {
  const Points& points;

  const Vector3d& at(LandmarkId id) const { return *points[id]; }
  Vector3d middle(Joint joint) const { return (at(lead(joint)) + at(trail(joint))) / 2; }
  Vector3d across(Joint joint) const { return at(lead(joint)) - at(trail(joint)); }

  double line(Joint joint) const {
    const Vector3d line = across(joint);
    return degrees(std::atan2(-line.z(), line.x()));
  }

  double tilt(Joint joint) const {
    const Vector3d line = across(joint);
    return degrees(std::atan2(line.y(), std::hypot(line.x(), line.z())));
  }

  double flexion(Side side, Joint from, Joint joint, Joint to) const {
    const Vector3d one = at({side, joint}) - at({side, from});
    const Vector3d two = at({side, to}) - at({side, joint});
    return degrees(std::atan2(one.cross(two).norm(), one.dot(two)));
  }
};

void add_side(std::map<std::string, double>& measures, const Reader& read, Side side) {
  const std::string name = side == Side::lead ? "lead_" : "trail_";
  const double outward = side == Side::lead ? 1 : -1;
  const auto at = [&](Joint joint) { return read.at({side, joint}); };
  const Vector3d foot = at(Joint::big_toe) - at(Joint::heel);
  measures[name + "flare"] = degrees(std::atan2(outward * foot.x(), foot.z()));
  measures[name + "knee_flex"] = read.flexion(side, Joint::hip, Joint::knee, Joint::ankle);
  measures[name + "elbow_flex"] = read.flexion(side, Joint::shoulder, Joint::elbow, Joint::wrist);
  measures[name + "knee_inset_in"] =
      outward * (at(Joint::ankle).x() - at(Joint::knee).x()) * inches_per_metre;
}

}  // namespace

std::map<std::string, double> true_measures(const Points& points) {
  const Reader read{points};
  std::map<std::string, double> measures;
  add_side(measures, read, Side::lead);
  add_side(measures, read, Side::trail);

  const Vector3d heels = read.across(Joint::heel);
  const Vector3d trunk = read.middle(Joint::shoulder) - read.middle(Joint::hip);
  const Vector3d& ball = read.at(centre(Joint::ball));
  measures["stance_width_in"] = std::hypot(heels.x(), heels.z()) * inches_per_metre;
  measures["toe_line"] = read.line(Joint::big_toe);
  measures["heel_line"] = read.line(Joint::heel);
  measures["knee_line"] = read.line(Joint::knee);
  measures["hip_line"] = read.line(Joint::hip);
  measures["shoulder_line"] = read.line(Joint::shoulder);
  for (const char* line : {"knee", "hip", "shoulder"}) {
    measures[std::string(line) + "_vs_stance"] =
        measures[std::string(line) + "_line"] - measures["toe_line"];
  }
  measures["hip_tilt"] = read.tilt(Joint::hip);
  measures["shoulder_tilt"] = read.tilt(Joint::shoulder);
  measures["forward_bend"] = degrees(std::atan2(trunk.z(), trunk.y()));
  measures["side_bend"] = degrees(std::atan2(-trunk.x(), trunk.y()));
  measures["ball_fraction"] = (ball.x() - read.at(trail(Joint::heel)).x()) / heels.x();
  measures["hands_ahead_in"] = (read.middle(Joint::wrist).x() - ball.x()) * inches_per_metre;
  return measures;
}

}  // namespace rangecheck::samples
