// SPDX-License-Identifier: MIT
// What is known of a golfer in the middle of the swing before any film shows it, against the same
// golfer at address: the one place for it. Every spread is one standard deviation. Common practice,
// no source, unless a line says otherwise; wide, so that it decides only what no film shows.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>

#include "base/position.hpp"
#include "base/skeleton.hpp"

namespace rangecheck::posture::prior {

/// A generic golfer at one position. Turns in degrees, open positive, since address; the chest's
/// about the trunk's axis. Shifts since address and places in fractions of stature.
struct GenericPosition {
  double pelvis_turn_deg, chest_turn_deg;
  double pelvis_x, pelvis_y, pelvis_z;  ///< shift of the middle of the hips
  double trunk_more_upright;            ///< share of the forward bend that is gone
  double hands_x, hands_y, hands_z;     ///< hands against the middle of the shoulders
  double trail_heel_up;                 ///< lift of the trail heel
  /// How far the elbows hang below the straight line from shoulder to hand.
  double lead_elbow_down, trail_elbow_down;
  /// The way the shaft points, from the hands to the head: the lead hand is behind the trail one.
  double shaft_x, shaft_y, shaft_z;
};
inline constexpr std::array<GenericPosition, position_count> generic_positions{{
    // pelvis and chest turn, pelvis shift, upright, hands, heel, elbows, shaft
    {0, 0, 0, 0, 0, 0, -0.005, -0.265, 0.055, 0, 0, 0, 0, -0.80, 0.60},       // address
    {-15, -35, -0.005, 0, 0, 0, -0.19, -0.18, 0.04, 0, 0, 0.03, -1, 0, 0.1},  // shaft parallel back
    {-30, -60, -0.010, 0, 0, 0, -0.22, -0.02, 0.02, 0, 0, 0.06, -0.3, 0.95,
     -0.1},  // lead arm parallel back
    {-45, -88, -0.010, 0, 0, 0, -0.10, 0.15, -0.03, 0, 0.01, 0.11, 0.95, 0.1, 0.2},  // top
    {-12, -52, 0.020, -0.010, 0, 0, -0.19, -0.01, 0.02, 0, 0, 0.08, -0.2, 0.95,
     -0.2},  // lead arm parallel down
    {10, -18, 0.030, -0.010, 0, 0, -0.14, -0.17, 0.05, 0.01, 0, 0.05, -1, 0,
     0},  // shaft parallel down
    {35, 22, 0.040, 0, 0, 0.05, 0.02, -0.26, 0.05, 0.03, 0, 0.02, 0.05, -0.82, 0.57},  // impact
    {52, 52, 0.045, 0.010, 0, 0.10, 0.19, -0.14, 0.01, 0.05, 0.01, 0, 1, 0,
     0.1},  // shaft parallel through
    {65, 75, 0.050, 0.015, 0, 0.20, 0.23, 0, -0.03, 0.07, 0.05, 0, 0.4, 0.85,
     -0.3},  // trail arm parallel
    {88, 112, 0.060, 0.030, 0, 0.75, 0.08, 0.14, -0.10, 0.12, 0.12, 0.08, -0.8, -0.3,
     -0.4},  // finish
}};

/// Where a phase (0 address … 9 finish, held within) lies between two rows of a table of positions.
struct Between {
  std::size_t low;  ///< the row before it; the next is after it
  double share;     ///< of the way from the one to the other
  double mix(double before, double after) const { return before + share * (after - before); }
};
inline Between between_positions(double phase) {
  const double within = std::clamp(phase, 0.0, static_cast<double>(position_count - 1));
  const auto low = std::min(static_cast<std::size_t>(within), position_count - 2);
  return {low, within - static_cast<double>(low)};
}

/// How far the lines of hips and shoulders, seen from above, may lie from there.
inline constexpr double pelvis_turn_sigma_rad = 20.0 / 57.29577951308232;
inline constexpr double chest_turn_sigma_rad = 25.0 / 57.29577951308232;

/// How far a joint may lie from there as seen from its parent, over stature; alike along all axes.
struct MotionStep {
  Joint joint;
  Joint parent;
  double sigma;
};
inline constexpr std::array<MotionStep, 18> motion_steps{{
    {Joint::knee, Joint::ankle, 0.055},
    {Joint::hip, Joint::knee, 0.060},
    {Joint::shoulder, Joint::hip, 0.090},
    {Joint::elbow, Joint::shoulder, 0.090},
    {Joint::wrist, Joint::elbow, 0.110},
    {Joint::ear, Joint::shoulder, 0.070},
    {Joint::eye, Joint::ear, 0.040},
    {Joint::nose, Joint::eye, 0.045},
    {Joint::index_1, Joint::wrist, 0.050},
    {Joint::middle_1, Joint::wrist, 0.050},
    {Joint::little_1, Joint::wrist, 0.050},
    {Joint::thumb_2, Joint::wrist, 0.050},
    {Joint::thumb_4, Joint::thumb_2, 0.030},
    {Joint::grip_end, Joint::wrist, 0.080},
    {Joint::hands_mid, Joint::wrist, 0.060},
    {Joint::shaft_mid, Joint::wrist, 0.400},
    {Joint::hosel, Joint::wrist, 0.700},
    {Joint::club_toe, Joint::wrist, 0.700},
}};

/// Lengths that stay what they are at address, from `from` to `to` (on one side, or both sides of
/// one joint), and how far an estimator's idea of them wanders, metres.
struct KeptLength {
  LandmarkId from, to;
  double sigma_m;
};
inline constexpr std::array<KeptLength, 20> kept_lengths{{
    {lead(Joint::hip), lead(Joint::knee), 0.006},
    {trail(Joint::hip), trail(Joint::knee), 0.006},
    {lead(Joint::knee), lead(Joint::ankle), 0.006},
    {trail(Joint::knee), trail(Joint::ankle), 0.006},
    {lead(Joint::ankle), lead(Joint::heel), 0.005},
    {trail(Joint::ankle), trail(Joint::heel), 0.005},
    {lead(Joint::ankle), lead(Joint::big_toe), 0.006},
    {trail(Joint::ankle), trail(Joint::big_toe), 0.008},
    {lead(Joint::heel), lead(Joint::big_toe), 0.005},
    {trail(Joint::heel), trail(Joint::big_toe), 0.008},
    {lead(Joint::shoulder), lead(Joint::elbow), 0.008},
    {trail(Joint::shoulder), trail(Joint::elbow), 0.008},
    {lead(Joint::elbow), lead(Joint::wrist), 0.006},
    {trail(Joint::elbow), trail(Joint::wrist), 0.006},
    {lead(Joint::hip), trail(Joint::hip), 0.006},
    // Shoulder joints ride on the blades: they come together and spread.
    {lead(Joint::shoulder), trail(Joint::shoulder), 0.030},
    {lead(Joint::ear), trail(Joint::ear), 0.005},
    {lead(Joint::ear), lead(Joint::eye), 0.005},
    {trail(Joint::ear), trail(Joint::eye), 0.005},
    {centre(Joint::grip_end), centre(Joint::hosel), 0.010},
}};
/// The trunk is no bone: its length between the middles of hips and shoulders bends with the back.
inline constexpr double kept_trunk_sigma_m = 0.020;
/// As one_film_widening, for a body that moves.
inline constexpr double one_film_in_motion_widening = 1.12;
/// One film shows a turn by foreshortening alone, and that is the same for both ways round: the
/// spread about one answer hides the other. So much is added along the line of sight, metres: to
/// how far one end of a pair is behind the other (half to each end), and to single joints.
/// Calibrated on made-up swings (tests/posture), where one answer in fifty was the wrong one.
struct OneFilmDepth {
  Joint joint;
  bool of_pair;
  double sigma_m;
};
inline constexpr std::array<OneFilmDepth, 5> one_film_depth{{
    {Joint::hip, true, 0.045},
    {Joint::shoulder, true, 0.055},
    {Joint::knee, false, 0.025},
    {Joint::elbow, false, 0.060},
    {Joint::wrist, false, 0.080},
}};

/// The lead arm stays long up to impact, the trail arm from impact to p9: the distance from
/// shoulder to wrist over the length of the arm. A bend of 40 degrees takes 6 % off.
inline constexpr double long_arm = 0.98;
inline constexpr double long_arm_sigma = 0.035;
inline constexpr double lead_arm_long_until = 6.5;
inline constexpr double trail_arm_long_from = 6.6, trail_arm_long_until = 8.2;

/// How far a foot's points leave their place at address, metres: along the ground, and up.
struct FootStays {
  double lead_sigma_m, lead_up_sigma_m, trail_toe_sigma_m, trail_heel_sigma_m;
};
inline constexpr std::array<FootStays, position_count> feet_stay{{
    {0.003, 0.003, 0.003, 0.003},
    {0.006, 0.008, 0.005, 0.006},
    {0.008, 0.015, 0.006, 0.008},
    {0.012, 0.025, 0.008, 0.010},
    {0.010, 0.015, 0.008, 0.015},
    {0.008, 0.010, 0.012, 0.030},
    {0.012, 0.012, 0.025, 0.050},
    {0.020, 0.015, 0.035, 0.070},
    {0.025, 0.020, 0.045, 0.090},
    {0.040, 0.030, 0.070, 0.130},
}};

/// Two films of different swings: how far a joint is from its mean of the two at one position.
inline constexpr double take_to_take_in_motion_sigma_m = 0.007;
inline constexpr double arms_take_to_take_in_motion_sigma_m = 0.016;
/// The ball lies still until it is hit, and where it was counts after.
inline constexpr double ball_stays_sigma_m = 0.001;

}  // namespace rangecheck::posture::prior
