// SPDX-License-Identifier: MIT
#include "generator/golfer.hpp"

#include <algorithm>
#include <array>
#include <stdexcept>

namespace rangecheck::samples {
namespace {

/// How one parameter spreads over golfers, and over the balls of one golfer (`take_sd`).
struct Spread {
  double Address::*parameter;
  double mean, sd;                ///< neutral family, 7-iron
  double preset_mean, preset_sd;  ///< preset family, 7-iron
  double take_sd;
};

/// Ranges of common practice, chosen by eye so that the figures look like golfers; no source.
/// 0.0058 statures are 0.4 in on an adult.
constexpr Spread spreads[] = {
    {&Address::stance_width, 0.215, 0.022, 0.215, 0.020, 0.0058},
    {&Address::heel_line_deg, 0, 2.5, -8, 3, 1.5},
    {&Address::lead_flare_deg, 18, 6, 15, 6, 2},
    {&Address::trail_flare_deg, 12, 7, 18, 5, 2},
    {&Address::knee_flexion_deg, 25, 5, 25, 5, 2},
    {&Address::lead_knee_in_deg, 3, 6, 3, 6, 2},
    {&Address::trail_knee_in_deg, 6, 7, 6, 7, 2},
    {&Address::pelvis_x, 0.004, 0.011, -0.004, 0.011, 0.0058},
    {&Address::pelvis_z, -0.035, 0.009, -0.031, 0.009, 0.0058},
    {&Address::pelvis_turn_deg, 0, 5, 2, 5, 1.8},
    {&Address::pelvis_tilt_deg, 1, 1.6, 0.5, 1.6, 0.7},
    {&Address::forward_bend_deg, 34, 4.5, 29, 4.5, 1.8},
    {&Address::side_bend_deg, 4, 2, -1, 3, 1.5},
    {&Address::shoulder_turn_deg, 2, 4.5, 23, 6, 2},
    {&Address::shoulder_tilt_deg, 8, 2.3, 9, 2.3, 1.5},
    {&Address::lead_elbow_flexion_deg, 7, 2.5, 7, 2.5, 1},
    {&Address::lead_elbow_swivel_deg, 0, 12, 0, 12, 3},
    {&Address::trail_elbow_swivel_deg, 0, 12, 0, 12, 3},
    {&Address::hands_out, 0.065, 0.016, 0.045, 0.016, 0.0058},
    {&Address::hands_ahead, 0.026, 0.011, 0.024, 0.011, 0.004},
    {&Address::ball_fraction, 0.50, 0.07, 0.47, 0.07, 0.025},
    {&Address::shaft_lie_deg, 59, 2, 59, 2, 0.8},
    {&Address::neck_bend_deg, 7, 5, 9, 5, 1.5},
    {&Address::gaze_down_deg, 45, 7, 45, 7, 2},
    {&Address::head_turn_deg, -2, 6, 4, 6, 2},
    {&Address::head_tilt_deg, 2, 4, 2, 4, 1.5},
};

/// What a setup adds to the mean of the 7-iron.
struct Shift {
  Setup setup;
  double Address::*parameter;
  double by;
};

constexpr Shift shifts[] = {
    {Setup::driver, &Address::stance_width, 0.045}, {Setup::driver, &Address::forward_bend_deg, -3},
    {Setup::driver, &Address::side_bend_deg, 4},    {Setup::driver, &Address::shoulder_tilt_deg, 4},
    {Setup::driver, &Address::ball_fraction, 0.36}, {Setup::driver, &Address::hands_ahead, -0.044},
    {Setup::driver, &Address::shaft_lie_deg, -12},  {Setup::wedge, &Address::stance_width, -0.03},
    {Setup::wedge, &Address::forward_bend_deg, 2},  {Setup::wedge, &Address::shaft_lie_deg, 2.5},
    {Setup::chip, &Address::stance_width, -0.09},   {Setup::chip, &Address::forward_bend_deg, 4},
    {Setup::chip, &Address::heel_line_deg, 6},      {Setup::chip, &Address::pelvis_x, 0.012},
    {Setup::chip, &Address::ball_fraction, -0.1},   {Setup::chip, &Address::hands_ahead, 0.01},
    {Setup::chip, &Address::shaft_lie_deg, 4},      {Setup::putter, &Address::stance_width, -0.035},
    {Setup::putter, &Address::forward_bend_deg, 7}, {Setup::putter, &Address::knee_flexion_deg, -5},
    {Setup::putter, &Address::ball_fraction, 0.12}, {Setup::putter, &Address::hands_ahead, -0.018},
    {Setup::putter, &Address::shaft_lie_deg, 9},
};

double angle_deg(const Points& points, LandmarkId from, LandmarkId at, LandmarkId to) {
  const Eigen::Vector3d one = (*points[from] - *points[at]).normalized();
  const Eigen::Vector3d two = (*points[to] - *points[at]).normalized();
  return std::acos(std::clamp(one.dot(two), -1.0, 1.0)) * 180 / std::numbers::pi;
}

bool bent_as_golfers_bend(const Points& points) {
  for (const auto side : {lead, trail}) {
    const double knee =
        180 - angle_deg(points, side(Joint::hip), side(Joint::knee), side(Joint::ankle));
    if (knee < 12 || knee > 40) return false;
  }
  const double trail_elbow =
      180 - angle_deg(points, trail(Joint::shoulder), trail(Joint::elbow), trail(Joint::wrist));
  return trail_elbow > 8 && trail_elbow < 30;
}

}  // namespace

Body draw_body(Random& random, Age age) {
  Body body;
  body.stature_m = age == Age::adult ? std::clamp(random.normal(1.72, 0.09), 1.50, 2.00)
                                     : random.uniform(1.45, 1.58);
  const auto part = [&](double mean, double sd) {
    return body.stature_m * std::clamp(random.normal(mean, sd), mean - 2.5 * sd, mean + 2.5 * sd);
  };
  // Thigh, shank, foot: Drillis & Contini 1966 as given by Winter 2009, fig. 4.1. Trunk and upper
  // arm are shorter than there, from the joint's centre and not from the acromion. The others and
  // all spreads: chosen, with ANSUR II's relative spreads (3 to 5 %) times 1.2 in mind.
  body.thigh_m = part(0.245, 0.010);
  body.shank_m = part(0.246, 0.009);
  body.trunk_m = part(0.277, 0.012);
  body.upper_arm_m = part(0.167, 0.009);
  body.forearm_m = part(0.150, 0.007);
  body.palm_m = part(0.042, 0.003);
  body.hips_m = part(0.108, 0.009);
  body.shoulders_m = part(0.215, 0.015);
  body.foot_m = part(0.151, 0.006);
  // A head grows less than the rest of the body.
  body.head = (0.6 + 0.4 * body.stature_m / 1.75) * random.normal(1, 0.04);
  return body;
}

Address draw_address(Random& random, Setup setup, Family family) {
  Address address;
  for (const auto& spread : spreads) {
    address.*spread.parameter = family == Family::neutral
                                    ? random.normal(spread.mean, spread.sd)
                                    : random.normal(spread.preset_mean, spread.preset_sd);
  }
  for (const auto& shift : shifts) {
    if (shift.setup == setup) address.*shift.parameter += shift.by;
  }
  // Who bends more sits farther back, or he would fall; who leans away lowers the trail shoulder.
  address.pelvis_z -= 0.0008 * (address.forward_bend_deg - 32);
  address.shoulder_tilt_deg += 0.6 * (address.side_bend_deg - (family == Family::neutral ? 4 : -1));
  address.lead_elbow_flexion_deg = std::clamp(address.lead_elbow_flexion_deg, 2.0, 12.0);
  return address;
}

Address draw_variation(Random& random) {
  Address variation;
  for (const auto& spread : spreads) {
    variation.*spread.parameter = random.normal(0, spread.take_sd);
  }
  return variation;
}

Address varied(const Address& mean, const Address& variation, double times) {
  Address result = mean;
  for (const auto& spread : spreads) {
    result.*spread.parameter += times * (variation.*spread.parameter);
  }
  result.lead_elbow_flexion_deg = std::max(result.lead_elbow_flexion_deg, 1.0);
  return result;
}

Grip draw_grip(Random& random, GripKind kind) {
  // Common practice, no source: a neutral grip has the lead palm turned down by some 25 degrees and
  // the trail palm facing it, a strong one turns both hands by 15 more; ten fingers on the grip lay
  // the hands a finger farther apart than an overlap does.
  const double strong_deg = kind == GripKind::neutral ? 0 : kind == GripKind::strong ? 15 : -15;
  Grip grip;
  grip.lead_turn_deg = 30 + strong_deg + random.normal(0, 5);
  grip.trail_turn_deg = -10 + 0.7 * strong_deg + random.normal(0, 6);
  grip.lead_thumb_deg = 15 + 0.8 * strong_deg + random.normal(0, 10);
  grip.trail_thumb_deg = -20 + 0.5 * strong_deg + random.normal(0, 10);
  grip.half_gap_m = (random.chance(0.25) ? 0.043 : 0.034) + random.normal(0, 0.002);
  return grip;
}

Golfer draw_golfer(Random& random, Age age, Setup setup, Family family, const Grip& grip) {
  // Few bodies close in fewer than ten postures; a body that closes in none is drawn anew.
  constexpr int bodies = 100, postures = 200;
  for (int i = 0; i < bodies; ++i) {
    const Body body = draw_body(random, age);
    for (int attempt = 0; attempt < postures; ++attempt) {
      Address address = draw_address(random, setup, family);
      address.grip = grip;
      const auto points = pose(body, address);
      if (points && bent_as_golfers_bend(*points)) return {body, address, *points};
    }
  }
  throw std::runtime_error("no posture found that a body can take");
}

}  // namespace rangecheck::samples
