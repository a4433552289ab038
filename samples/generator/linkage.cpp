// SPDX-License-Identifier: MIT
#include "generator/linkage.hpp"

#include <Eigen/Geometry>

namespace rangecheck::samples {

using Eigen::Vector3d;

Vector3d across(double turn_deg, double tilt_deg) {
  const double turn = radians(turn_deg), tilt = radians(tilt_deg);
  return {std::cos(tilt) * std::cos(turn), std::sin(tilt), -std::cos(tilt) * std::sin(turn)};
}

Vector3d square_to(const Vector3d& axis, const Vector3d& vector) {
  return (vector - vector.dot(axis) / axis.squaredNorm() * axis).normalized();
}

double reach(double first_m, double second_m, double flexion_rad) {
  return std::sqrt(first_m * first_m + second_m * second_m +
                   2 * first_m * second_m * std::cos(flexion_rad));
}

std::optional<double> flexion_at(double first_m, double second_m, double distance_m) {
  const double cosine = (distance_m * distance_m - first_m * first_m - second_m * second_m) /
                        (2 * first_m * second_m);
  if (std::abs(cosine) > 1) return std::nullopt;
  return std::acos(cosine);
}

double bend_deg(const Points& points, Side side, Joint from, Joint joint, Joint to) {
  const Vector3d one = *points[{side, joint}] - *points[{side, from}];
  const Vector3d two = *points[{side, to}] - *points[{side, joint}];
  return degrees(std::atan2(one.cross(two).norm(), one.dot(two)));
}

std::optional<Vector3d> bent_joint(const Vector3d& start, const Vector3d& end, double first_m,
                                   double second_m, const Vector3d& pole) {
  const double distance = (end - start).norm();
  const Vector3d along = (end - start) / distance;
  const Vector3d aside = (pole - pole.dot(along) * along).normalized();
  const double foot_of_height =
      (first_m * first_m - second_m * second_m + distance * distance) / (2 * distance);
  const double height_squared = first_m * first_m - foot_of_height * foot_of_height;
  if (height_squared < 0) return std::nullopt;
  return start + foot_of_height * along + std::sqrt(height_squared) * aside;
}

}  // namespace rangecheck::samples
