// SPDX-License-Identifier: MIT
// Turn about the trunk against what is seen from above, by a second route: figures drawn by angles.
#include <Eigen/Geometry>
#include <string>

#include "close.hpp"
#include "measure/address.hpp"

namespace rangecheck {
namespace {

using posture::Point;

double radians(double degrees) { return Angle::degrees(degrees).in_radians(); }

struct Figure {
  double forward_deg = 0;    ///< of the trunk
  double side_deg = 0;       ///< of the trunk, away from the target, after the forward bend
  double shoulders_deg = 0;  ///< turned back about the trunk
  double hips_deg = 0;       ///< turned back about the vertical
};

/// Shoulders and hips in the order of the rules about turn.
std::vector<Point> drawn(const Figure& figure) {
  // Lean, as a rotation of the upright golfer: forward about X, to the side about Z.
  const Eigen::Matrix3d lean = (Eigen::AngleAxisd(radians(figure.forward_deg), Point::UnitX()) *
                                Eigen::AngleAxisd(radians(figure.side_deg), Point::UnitZ()))
                                   .toRotationMatrix();
  const auto turned = [](double back_deg) {  // seen from above, clockwise
    return Eigen::AngleAxisd(radians(-back_deg), Point::UnitY()).toRotationMatrix();
  };
  const Point hips(0, 0.9, -0.05);
  const Point shoulders = hips + lean * Point(0, 0.5, 0);
  const Point shoulder = lean * turned(figure.shoulders_deg) * Point(0.18, 0, 0);
  const Point hip = turned(figure.hips_deg) * Point(0.09, 0, 0);
  return {shoulders + shoulder, shoulders - shoulder, hips + hip, hips - hip};
}

double measured_deg(std::string_view id, const Figure& now, const Figure& then) {
  auto points = drawn(now);
  const auto before = drawn(then);
  points.insert(points.end(), before.begin(), before.end());
  if (id == "hip-turn") points = {points[2], points[3], points[6], points[7]};
  return Angle::radians(*measure::find_rule(id)->measure(points)).in_degrees();
}

}  // namespace

TEST_CASE("a turn about a leaning trunk is not what is seen from above") {
  // A shoulder line turned about a spine 40 deg forward, and its direction and slope as seen from
  // above: azimuth = atan2(sin T cos 40, cos T), elevation = asin(sin T sin 40).
  struct Row {
    double turn_deg, azimuth_deg, elevation_deg;
  };
  const Point axis(0, std::cos(radians(40)), std::sin(radians(40)));
  const Point mid_hips(0, 0.9, 0), mid_shoulders = mid_hips + 0.5 * axis;
  const Point hip(0.1, 0, 0), square(0.2, 0, 0);
  for (const auto& [turn_deg, azimuth_deg, elevation_deg] :
       {Row{30, 23.859, 18.747}, Row{45, 37.454, 27.034}, Row{60, 52.995, 33.826},
        Row{90, 90, 40}}) {
    CAPTURE(turn_deg);
    const double azimuth = radians(azimuth_deg), elevation = radians(elevation_deg);
    // Going back the lead end goes toward the ball and down.
    const Point line = 0.2 * Point(std::cos(elevation) * std::cos(azimuth), -std::sin(elevation),
                                   std::cos(elevation) * std::sin(azimuth));
    const std::vector<Point> points = {
        mid_shoulders + line,   mid_shoulders - line,   mid_hips + hip, mid_hips - hip,
        mid_shoulders + square, mid_shoulders - square, mid_hips + hip, mid_hips - hip};
    const auto turn = measure::find_rule("shoulder-turn")->measure(points);
    REQUIRE(turn);
    CHECK_CLOSE(Angle::radians(*turn).in_degrees(), turn_deg, 0.002);  // printed to 0.001 deg
    const auto above = measure::find_rule("shoulder-line-to-target")
                           ->measure(std::vector<Point>{points[0], points[1]});
    REQUIRE(above);
    CHECK_CLOSE(Angle::radians(*above).in_degrees(), -azimuth_deg, 1e-9);
  }
}

TEST_CASE("turn, hip turn and separation of figures drawn by angles, past 90 deg too") {
  const Figure square{.forward_deg = 38, .side_deg = 6};
  for (const double shoulders_deg : {-60.0, 0.0, 45.0, 90.0, 120.0, 170.0}) {
    for (const double hips_deg : {-40.0, 0.0, 50.0, 110.0}) {
      CAPTURE(shoulders_deg);
      CAPTURE(hips_deg);
      auto now = square;
      now.shoulders_deg = shoulders_deg;
      now.hips_deg = hips_deg;
      CHECK_CLOSE(measured_deg("shoulder-turn", now, square), shoulders_deg, 1e-9);
      CHECK_CLOSE(measured_deg("hip-turn", now, square), hips_deg, 1e-9);
      const double apart_deg = std::remainder(shoulders_deg - hips_deg, 360.0);
      CHECK_CLOSE(measured_deg("separation", now, square), apart_deg, 1e-9);
    }
  }
}

TEST_CASE("turn is counted from address, however the golfer stood there") {
  Figure then{.forward_deg = 35, .side_deg = 8, .shoulders_deg = -12, .hips_deg = 5};
  Figure now = then;
  now.shoulders_deg = 80;
  now.hips_deg = 50;
  CHECK_CLOSE(measured_deg("shoulder-turn", now, then), 92, 1e-9);
  CHECK_CLOSE(measured_deg("hip-turn", now, then), 45, 1e-9);
}

TEST_CASE("a trunk that changes its lean by some degrees changes the turn by little") {
  // Lean toward the ball and to the side lie square to the turn, so they enter in second order
  // only.
  const Figure then{.forward_deg = 38, .side_deg = 6};
  const Figure now{.forward_deg = 34, .side_deg = -2, .shoulders_deg = 90};
  CHECK_CLOSE(measured_deg("shoulder-turn", now, then), 90, 0.5);
}

TEST_CASE("what is counted from the golfer's own address does not ask for the target line") {
  // A camera that is not square turns everything alike: only measures against the target line and
  // along the axes may change.
  const auto posture = test::posture_at_top(0.003);
  const auto turned = Eigen::AngleAxisd(radians(17), Point::UnitY()).toRotationMatrix();
  for (const char* id :
       {"shoulder-turn", "hip-turn", "separation", "arm-turn", "lead-knee-flexion-change",
        "trail-knee-flexion-change", "pelvis-lift", "head-lift", "hand-height-change",
        "trail-heel-lift", "lead-arm-elevation", "shaft-elevation", "wrist-set", "shoulder-tilt"}) {
    CAPTURE(std::string(id));
    const auto& rule = *measure::find_rule(id);
    auto points = test::points_for(rule, posture);
    const auto before = rule.measure(points);
    for (auto& point : points) point = turned * point;
    CHECK_CLOSE(*rule.measure(points), *before, 1e-12);
  }
}

TEST_CASE("turns and changes of bend of a golfer at the top") {
  const auto posture = test::posture_at_top(0.003);
  const auto value = [&posture](std::string_view id) {
    const auto measured = measure::measure(*measure::find_rule(id), posture);
    REQUIRE(measured.value);
    return in_unit({*measured.value, measured.rule->dimension},
                   display_unit(measured.rule->dimension, "cm"));
  };
  // Ranges of tour players and amateurs: shoulders 87, hips 53 to 55 deg (McTeigue et al. 1994,
  // from memory); the figure is an ordinary golfer.
  CHECK_CLOSE(value("shoulder-turn"), 87, 15);
  CHECK_CLOSE(value("hip-turn"), 50, 15);
  CHECK_CLOSE(value("separation"), value("shoulder-turn") - value("hip-turn"), 0.1);
  CHECK(value("arm-turn") > value("shoulder-turn"));
  CHECK_CLOSE(value("pelvis-sway"), 100 * ((0.08 - 0.06) - (0.12 - 0.07)) / 2, 1e-9);
  CHECK_CLOSE(value("pelvis-lift"), 100 * (0.905 - 0.91), 1e-9);
  CHECK_CLOSE(value("pelvis-to-ball"), 100 * (-0.07 + 0.07), 1e-9);
  CHECK_CLOSE(value("head-sway"), 100 * (-0.05 + 0.025), 1e-9);
  CHECK_CLOSE(value("trail-hip-inside-knee"), 8, 1e-9);
}

}  // namespace rangecheck
