// SPDX-License-Identifier: MIT
#include "measure/peak.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <random>
#include <vector>

using namespace rangecheck;

namespace {

/// An angle whose speed is a bell about `peak_s`: the error function, so the peak is exact.
std::vector<double> turned(const std::vector<double>& time_s, double peak_s, double width_s) {
  std::vector<double> out;
  for (const double t : time_s) out.push_back(1.2 * std::erf((t - peak_s) / width_s));
  return out;
}

std::vector<double> every(double step_s, std::size_t count) {
  std::vector<double> out;
  for (std::size_t i = 0; i < count; ++i) out.push_back(step_s * static_cast<double>(i));
  return out;
}

}  // namespace

TEST_CASE("the fastest moment of a turn is found between frames") {
  const auto time_s = every(0.01, 30);
  const auto peak = measure::peak_of_speed(time_s, turned(time_s, 0.1437, 0.06));
  REQUIRE(peak);
  CHECK(std::abs(peak->time.in_seconds() - 0.1437) < 0.001);
  CHECK(peak->standard_uncertainty.in_seconds() > 0.002);
  CHECK(peak->standard_uncertainty.in_seconds() < 0.02);
}

TEST_CASE("the stated uncertainty of a fastest moment covers what noise does") {
  const auto time_s = every(0.015, 20);
  std::mt19937 random(4);
  std::normal_distribution<double> noise(0, 0.02);
  int inside = 0, found = 0;
  for (int i = 0; i < 300; ++i) {
    auto angle = turned(time_s, 0.14 + 1e-4 * (i % 50), 0.07);
    for (double& each : angle) each += noise(random);
    const auto peak = measure::peak_of_speed(time_s, angle);
    if (!peak) continue;
    ++found;
    const double off = std::abs(peak->time.in_seconds() - 0.14 - 1e-4 * (i % 50));
    inside += off < 1.96 * peak->standard_uncertainty.in_seconds();
  }
  CHECK(found > 280);
  CHECK(inside > 0.90 * found);
}

TEST_CASE("a turn that is still getting faster has no fastest moment") {
  const auto time_s = every(0.01, 12);
  std::vector<double> angle;
  for (const double t : time_s) angle.push_back(t * t);
  CHECK_FALSE(measure::peak_of_speed(time_s, angle));
  CHECK_FALSE(measure::peak_of_speed(every(0.01, 6), std::vector<double>(6, 0.0)));
}
