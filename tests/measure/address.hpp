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
      {lead(Joint::thumb_4), {0.02, 0.70, 0.42}},    {trail(Joint::little_1), {0.03, 0.65, 0.35}},
      {lead(Joint::hip), {0.12, 0.92, -0.08}},       {trail(Joint::hip), {-0.07, 0.90, -0.06}},
      {lead(Joint::knee), {0.18, 0.51, 0.08}},       {trail(Joint::knee), {-0.13, 0.50, 0.10}},
      {lead(Joint::ankle), {0.20, 0.08, 0.05}},      {trail(Joint::ankle), {-0.19, 0.08, 0.05}},
      {lead(Joint::heel), {0.19, 0.03, 0.00}},       {trail(Joint::heel), {-0.19, 0.03, 0.00}},
      {lead(Joint::big_toe), {0.28, 0.02, 0.24}},    {trail(Joint::big_toe), {-0.22, 0.02, 0.25}},
  };
  return points;
}

/// The same golfer at the top of the backswing: the points that have moved, and the others as at
/// address.
inline std::vector<At> top() {
  const std::vector<At> moved = {
      {centre(Joint::nose), {-0.07, 1.35, 0.42}},
      {centre(Joint::mid_spine), {0.00, 1.11, 0.02}},
      {centre(Joint::grip_end), {-0.19, 1.50, 0.10}},
      {centre(Joint::hosel), {0.63, 1.66, 0.34}},
      {lead(Joint::ear), {0.02, 1.45, 0.36}},
      {trail(Joint::ear), {-0.12, 1.44, 0.30}},
      {lead(Joint::shoulder), {0.08, 1.19, 0.36}},
      {trail(Joint::shoulder), {-0.08, 1.40, 0.09}},
      {lead(Joint::elbow), {-0.05, 1.38, 0.20}},
      {trail(Joint::elbow), {-0.30, 1.28, 0.02}},
      {lead(Joint::wrist), {-0.20, 1.52, 0.14}},
      {trail(Joint::wrist), {-0.16, 1.53, 0.08}},
      {lead(Joint::index_1), {-0.17, 1.58, 0.08}},
      {trail(Joint::index_1), {-0.10, 1.58, 0.10}},
      {lead(Joint::little_1), {-0.22, 1.55, 0.07}},
      {lead(Joint::thumb_4), {-0.15, 1.60, 0.06}},
      {trail(Joint::little_1), {-0.10, 1.55, 0.03}},
      {lead(Joint::hip), {0.08, 0.90, 0.00}},
      {trail(Joint::hip), {-0.06, 0.91, -0.14}},
      {lead(Joint::knee), {0.15, 0.50, 0.14}},
      {trail(Joint::knee), {-0.14, 0.50, 0.07}},
      {trail(Joint::heel), {-0.19, 0.04, 0.00}},
  };
  std::vector<At> points = address();
  for (auto& point : points) {
    const auto found = std::ranges::find(moved, point.id, &At::id);
    if (found != moved.end()) point.at = found->at;
  }
  return points;
}

inline void append(const std::vector<At>& points, std::vector<LandmarkId>& ids,
                   Eigen::VectorXd& mean) {
  const auto row = mean.size();
  mean.conservativeResize(row + 3 * static_cast<Eigen::Index>(points.size()));
  for (std::size_t i = 0; i < points.size(); ++i) {
    const auto& [id, at] = points[i];
    mean.segment<3>(row + 3 * static_cast<Eigen::Index>(i)) << at.x, at.y, at.z;
    ids.push_back(id);
  }
}

inline posture::Posture independent(posture::Posture posture, double sigma_m) {
  const auto size = posture.mean.size();
  posture.evidenced = posture.landmarks;
  posture.covariance = sigma_m * sigma_m * Eigen::MatrixXd::Identity(size, size);
  posture.prior_covariance = 100 * posture.covariance;
  return posture;
}

/// The address as a posture: every coordinate independent with `sigma_m`, prior knowledge ten times
/// as wide, everything evidenced, nothing missing.
inline posture::Posture posture_at_address(double sigma_m) {
  posture::Posture out;
  append(address(), out.landmarks, out.mean);
  return independent(std::move(out), sigma_m);
}

/// The top as a posture, with the address beside it, in the same way.
inline posture::Posture posture_at_top(double sigma_m) {
  posture::Posture out;
  append(top(), out.landmarks, out.mean);
  append(address(), out.address_landmarks, out.mean);
  return independent(std::move(out), sigma_m);
}

/// The points `rule` needs, now and at address, as the posture has them.
inline std::vector<Point> points_for(const Rule& rule, const posture::Posture& posture) {
  std::vector<Point> out;
  for (const LandmarkId id : rule.needs) out.push_back(*posture.point(id));
  for (const LandmarkId id : rule.address_needs) {
    const auto row = 3 * static_cast<Eigen::Index>(*posture.find_at_address(id));
    out.emplace_back(posture.mean.segment<3>(row));
  }
  return out;
}

/// SI as the unit that worked examples are in: degrees, metres, seconds or 1.
inline double in_example_unit(const Rule& rule, double si) {
  return rule.dimension == Dimension::angle ? Angle::radians(si).in_degrees() : si;
}

}  // namespace rangecheck::test
