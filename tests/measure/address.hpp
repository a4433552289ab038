// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <vector>

#include "measure/measurement.hpp"

namespace rangecheck::test {

using measure::Placed;
using measure::Rule;
using posture::Point;

struct At {
  LandmarkId id;
  Placed at;
};

/// An invented golfer of 1.76 m at address with a middle iron, metres in the golfer frame: an
/// ordinary posture with no joint straight, no line square and the hands drawn in full.
inline const std::vector<At>& address() {
  static const std::vector<At> points = {
      {centre(Joint::nose), {-0.03, 1.36, 0.47}},    {centre(Joint::mid_spine), {0.00, 1.11, 0.05}},
      {centre(Joint::ball), {0.04, 0.02, 0.85}},     {centre(Joint::grip_end), {0.09, 0.83, 0.22}},
      {centre(Joint::hosel), {0.03, 0.04, 0.82}},    {lead(Joint::ear), {0.05, 1.46, 0.38}},
      {trail(Joint::ear), {-0.10, 1.44, 0.36}},      {lead(Joint::shoulder), {0.17, 1.32, 0.24}},
      {trail(Joint::shoulder), {-0.19, 1.27, 0.26}}, {lead(Joint::elbow), {0.15, 1.03, 0.24}},
      {trail(Joint::elbow), {-0.14, 1.00, 0.23}},    {lead(Joint::wrist), {0.08, 0.79, 0.29}},
      {trail(Joint::wrist), {0.02, 0.74, 0.33}},     {lead(Joint::index_1), {0.03, 0.75, 0.35}},
      {trail(Joint::index_1), {0.04, 0.69, 0.40}},   {lead(Joint::little_1), {0.08, 0.71, 0.33}},
      {trail(Joint::little_1), {0.03, 0.65, 0.35}},  {lead(Joint::hip), {0.12, 0.92, -0.08}},
      {trail(Joint::hip), {-0.07, 0.90, -0.06}},     {lead(Joint::knee), {0.18, 0.51, 0.08}},
      {trail(Joint::knee), {-0.13, 0.50, 0.10}},     {lead(Joint::ankle), {0.20, 0.08, 0.05}},
      {trail(Joint::ankle), {-0.19, 0.08, 0.05}},    {lead(Joint::heel), {0.19, 0.03, 0.00}},
      {trail(Joint::heel), {-0.19, 0.03, 0.00}},     {lead(Joint::big_toe), {0.28, 0.02, 0.24}},
      {trail(Joint::big_toe), {-0.22, 0.02, 0.25}},
  };
  return points;
}

/// The address as a posture: every coordinate independent with `sigma_m`, prior knowledge ten times
/// as wide, everything evidenced, nothing missing.
inline posture::Posture posture_at_address(double sigma_m) {
  posture::Posture out;
  const auto size = 3 * static_cast<Eigen::Index>(address().size());
  out.mean.resize(size);
  for (const auto& [id, at] : address()) {
    out.mean.segment<3>(3 * static_cast<Eigen::Index>(out.landmarks.size())) << at.x, at.y, at.z;
    out.landmarks.push_back(id);
  }
  out.evidenced = out.landmarks;
  out.covariance = sigma_m * sigma_m * Eigen::MatrixXd::Identity(size, size);
  out.prior_covariance = 100 * out.covariance;
  return out;
}

/// The points `rule` needs, as the posture has them.
inline std::vector<Point> points_for(const Rule& rule, const posture::Posture& posture) {
  std::vector<Point> out;
  for (const LandmarkId id : rule.needs) out.push_back(*posture.point(id));
  return out;
}

/// SI as the unit that worked examples are in: degrees, metres or 1.
inline double in_example_unit(const Rule& rule, double si) {
  return rule.dimension == Dimension::angle ? Angle::radians(si).in_degrees() : si;
}

}  // namespace rangecheck::test
