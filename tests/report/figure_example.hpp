// SPDX-License-Identifier: MIT
// A stick figure made by hand, and a check that is drawn on it.
#pragma once

#include <cmath>

#include "example.hpp"

namespace rangecheck::report {

/// A golfer seen down the line, bent by 30 degrees, in whole pixels.
inline Figure bent_golfer() {
  Figure figure{.position = Position::address, .view = intake::View::down_the_line, .points = {}};
  const auto put = [&](Joint joint, double x, double y) {
    figure.points[lead(joint)] = intake::ImagePoint{x, y};
    figure.points[trail(joint)] = intake::ImagePoint{x, y + 4};
  };
  put(Joint::hip, 500, 600);
  put(Joint::shoulder, 500 + 200 * std::sin(30 * rad_per_deg),
      600 - 200 * std::cos(30 * rad_per_deg));
  put(Joint::knee, 530, 800);
  put(Joint::ankle, 500, 1000);
  put(Joint::heel, 490, 1020);
  put(Joint::big_toe, 560, 1020);
  put(Joint::elbow, 600, 520);
  put(Joint::wrist, 590, 620);
  put(Joint::ear, 640, 380);
  return figure;
}

inline grade::CheckResult bend_result(double measured_deg) {
  grade::CheckResult result = angle_result(grade::Verdict::low);
  result.check.id = result.check.rule = "forward-bend";
  result.check.title = "Forward bend";
  result.check.band = {.lower_si = 35 * rad_per_deg, .upper_si = 45 * rad_per_deg};
  result.value_si = measured_deg * rad_per_deg;
  result.standard_uncertainty_si = 2 * rad_per_deg;
  return result;
}

}  // namespace rangecheck::report
