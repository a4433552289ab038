// SPDX-License-Identifier: MIT
// Lines across the body and chains of two segments: what a posture is put together from.
#pragma once

#include <Eigen/Core>
#include <cmath>
#include <numbers>
#include <optional>

#include "generator/golfer.hpp"

namespace rangecheck::samples {

inline double radians(double degrees) { return degrees * std::numbers::pi / 180; }
inline double degrees(double radians) { return radians * 180 / std::numbers::pi; }

/// Sign of X on which a side lies.
inline double outward(Side side) { return side == Side::lead ? 1 : -1; }

/// From trail to lead, of length 1: turned open by `turn_deg`, the trail side lower by `tilt_deg`.
Eigen::Vector3d across(double turn_deg, double tilt_deg);

/// `vector` without its part along `axis`, of length 1.
Eigen::Vector3d square_to(const Eigen::Vector3d& axis, const Eigen::Vector3d& vector);

/// Distance between the ends of two segments whose joint is bent by `flexion`.
double reach(double first_m, double second_m, double flexion_rad);

/// Flexion of the joint between two segments whose ends are `distance_m` apart.
std::optional<double> flexion_at(double first_m, double second_m, double distance_m);

/// Flexion of a joint of the figure, degrees.
double bend_deg(const Points& points, Side side, Joint from, Joint joint, Joint to);

/// The joint between two segments from `start` to `end`, bent toward `pole`.
std::optional<Eigen::Vector3d> bent_joint(const Eigen::Vector3d& start, const Eigen::Vector3d& end,
                                          double first_m, double second_m,
                                          const Eigen::Vector3d& pole);

/// Where a smooth rising function of one number is 0, between two numbers; nothing when it is not.
template <class Function>
std::optional<double> root(Function rising, double low, double high) {
  if (rising(low) > 0 || rising(high) < 0) return std::nullopt;
  for (int step = 0; step < 60; ++step) {
    const double middle = (low + high) / 2;
    (rising(middle) < 0 ? low : high) = middle;
  }
  return (low + high) / 2;
}

}  // namespace rangecheck::samples
