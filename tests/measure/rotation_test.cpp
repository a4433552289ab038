// SPDX-License-Identifier: MIT
#include "measure/rotation.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <vector>

#include "close.hpp"
#include "said.hpp"

using namespace rangecheck;
using posture::Point;
using posture::Posture;

namespace {

constexpr double step_s = 0.012;
constexpr std::size_t moments = 24;

/// Turned open by an angle whose speed is a bell about `peak_s`.
Point turned(const Point& v, double t_s, double peak_s) {
  const double angle = 0.9 * std::erf((t_s - peak_s) / 0.06);
  return {std::cos(angle) * v.x() + std::sin(angle) * v.z(), v.y(),
          -std::sin(angle) * v.x() + std::cos(angle) * v.z()};
}

/// Hips fastest at 0.12 s, shoulders at 0.15 s, hands at 0.18 s; no club.
Posture at(double t_s, double sigma_m) {
  Posture out;
  const auto add = [&out](LandmarkId id, const Point& point) {
    out.landmarks.push_back(id);
    out.mean.conservativeResize(out.mean.size() + 3);
    out.mean.tail<3>() = point;
  };
  add(lead(Joint::hip), turned({0.10, 0.9, 0}, t_s, 0.12));
  add(trail(Joint::hip), turned({-0.10, 0.9, 0}, t_s, 0.12));
  add(lead(Joint::shoulder), turned({0.18, 1.4, 0}, t_s, 0.15));
  add(trail(Joint::shoulder), turned({-0.18, 1.4, 0}, t_s, 0.15));
  add(lead(Joint::wrist), turned({0.03, 0.9, 0.5}, t_s, 0.18));
  add(trail(Joint::wrist), turned({-0.03, 0.9, 0.5}, t_s, 0.18));
  const auto size = out.mean.size();
  out.covariance = sigma_m * sigma_m * Eigen::MatrixXd::Identity(size, size);
  out.prior_covariance = 0.01 * Eigen::MatrixXd::Identity(size, size);
  out.evidenced = out.landmarks;
  out.missing = {posture::Observation::down_the_line_film};
  return out;
}

std::array<measure::PeakFound, 4> peaks(double sigma_m) {
  std::vector<double> time_s;
  std::vector<Posture> postures;
  for (std::size_t i = 0; i < moments; ++i) {
    time_s.push_back(step_s * static_cast<double>(i));
    postures.push_back(at(time_s.back(), sigma_m));
  }
  return measure::rotation_peaks(time_s, postures);
}

}  // namespace

TEST_CASE("pelvis, chest and arms reach their greatest speeds one after another") {
  const auto found = peaks(0.004);
  REQUIRE(found[0].peak);
  REQUIRE(found[1].peak);
  REQUIRE(found[2].peak);
  CHECK_CLOSE(found[0].peak->time.in_seconds(), 0.12, 0.002);
  CHECK_CLOSE(found[1].peak->time.in_seconds(), 0.15, 0.002);
  CHECK_CLOSE(found[2].peak->time.in_seconds(), 0.18, 0.004);
  CHECK_FALSE(found[3].peak);
  CHECK(found[3].reason == "nothing shows how the club turns on the way down");
}

TEST_CASE("a line whose direction the films hardly show has no peak") {
  // 3 cm a point over hips 20 cm apart are 12 degrees; over shoulders 36 cm apart 7.
  const auto found = peaks(0.03);
  CHECK_FALSE(found[0].peak);
  CHECK(found[0].reason == "the films do not show well enough how the hips turn");
  CHECK(found[0].remedy == posture::advice(posture::Observation::down_the_line_film));
  CHECK(found[1].peak);
}
