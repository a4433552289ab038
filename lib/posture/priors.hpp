// SPDX-License-Identifier: MIT
// What is known before any film is seen, and how surely: the one place for it. Every spread is one
// standard deviation. Lengths are fractions of stature unless the name ends in _m.
#pragma once

#include <array>
#include <optional>

#include "base/skeleton.hpp"

namespace rangecheck::posture::prior {

struct Spread {
  double mean;
  double sigma;
};

// --- The golfer -------------------------------------------------------------------------------

/// Adults of both sexes and juniors from about ten: wide on purpose. Adult means and spreads
/// 1.756 (0.069) and 1.629 (0.064): ANSUR II, Gordon et al. 2014, NATICK/TR-15/007.
inline constexpr Spread stature_m{1.69, 0.15};
/// Spread of a stature that a person states or a coach types. Common practice, no source.
inline constexpr double stated_stature_sigma_m = 0.015;

/// What the trail side has of a segment: nothing of its own, a distance with the same prior, or the
/// same bone, as long as the lead one.
enum class Twin { none, alike, equal };

/// Distance between two joint centres as a fraction of stature.
struct Segment {
  LandmarkId from, to;
  Spread length;
  Twin twin;
};

/// Means lie between two published conventions, spreads cover both: joint-centre lengths of de Leva
/// 1996 (J Biomech 29:1223-1230, from memory) and link lengths of Drillis & Contini 1966 (via
/// Winter 2009, fig. 4.1), as estimators differ in where they put a joint.
inline constexpr std::array<Segment, 15> segments{{
    {lead(Joint::hip), lead(Joint::knee), {0.243, 0.013}, Twin::equal},
    {lead(Joint::knee), lead(Joint::ankle), {0.247, 0.013}, Twin::equal},
    {lead(Joint::shoulder), lead(Joint::elbow), {0.163, 0.016}, Twin::equal},
    {lead(Joint::elbow), lead(Joint::wrist), {0.150, 0.014}, Twin::equal},
    {lead(Joint::heel), lead(Joint::big_toe), {0.149, 0.009}, Twin::equal},
    {lead(Joint::ear), lead(Joint::eye), {0.060, 0.008}, Twin::equal},
    {lead(Joint::eye), centre(Joint::nose), {0.036, 0.006}, Twin::equal},
    {lead(Joint::shoulder), lead(Joint::ear), {0.160, 0.025}, Twin::alike},
    {lead(Joint::hip), lead(Joint::shoulder), {0.278, 0.024}, Twin::alike},
    {lead(Joint::wrist), lead(Joint::index_1), {0.055, 0.012}, Twin::equal},
    {lead(Joint::wrist), lead(Joint::little_1), {0.050, 0.012}, Twin::equal},
    // From memory: two bones of the thumb, about 32 and 25 mm.
    {lead(Joint::thumb_2), lead(Joint::thumb_4), {0.036, 0.006}, Twin::equal},
    {lead(Joint::shoulder), trail(Joint::shoulder), {0.211, 0.018}, Twin::none},
    {lead(Joint::hip), trail(Joint::hip), {0.114, 0.014}, Twin::none},
    {lead(Joint::ear), trail(Joint::ear), {0.096, 0.014}, Twin::none},
}};
/// Shank, thigh and trunk along their bones, as a fraction of stature: joint to joint they vary
/// more than their sum does. Acromial height .820 (.009): ANSUR II; less the ankle's height and
/// about .02 from the acromion to the joint's centre (common practice, no source), which sets the
/// spread.
inline constexpr Spread ankle_to_shoulder{0.766, 0.024};
/// Difference of one body's two sides. Common practice, no source: limbs agree to about 1 cm.
inline constexpr double side_difference_sigma_m = 0.008;

/// Landmarks of heel and toe lie inside the outline that a shoe size measures.
inline constexpr Spread heel_to_toe_less_than_foot_m{0.003, 0.007};

// --- Feet, ground, ball -----------------------------------------------------------------------

inline constexpr Spread heel_height_m{0.021, 0.008};
inline constexpr Spread toe_height_m{0.020, 0.008};
/// Ankle height .039 of stature: Drillis & Contini 1966 via Winter 2009.
inline constexpr Spread ankle_height{0.0405, 0.005};
/// The ankle sits over the line heel–toe: how far along it (fraction), and how far beside it.
inline constexpr Spread ankle_along_foot{0.25, 0.06};
inline constexpr double ankle_beside_foot_sigma_m = 0.010;
/// The little toe against the axis heel–big toe, in foot lengths: along it and outward of it.
/// Common practice, no source; foot breadth is .36 of foot length (Drillis & Contini 1966 via
/// Winter 2009).
inline constexpr Spread small_toe_along_foot{0.81, 0.06};
inline constexpr Spread small_toe_outward{0.26, 0.07};
/// The Rules: diameter at least 1.680 in (42.67 mm).
inline constexpr double ball_radius_m = 1.680 * 0.0254 / 2;
inline constexpr double ball_height_sigma_m = 0.003;

// --- Standing at address ----------------------------------------------------------------------

/// Where a joint is at a generic address, in fractions of stature along X, Y, Z, and how far it may
/// lie from there as seen from its parent: the spread belongs to the difference of the two, so that
/// a whole body may lean or stand elsewhere at the price of one joint. Common practice, no source;
/// wide, so that it decides only what no film shows.
struct Place {
  LandmarkId id;  ///< lead side; the trail side has X negated
  double x, y, z;
  std::optional<Joint> parent;  ///< on the same side; of a central joint on both sides
  double sx, sy, sz;
};
inline constexpr std::array<Place, 24> address{{
    {lead(Joint::heel), 0.108, 0.012, 0.000, std::nullopt, 0.045, 0.050, 0.040},
    {lead(Joint::big_toe), 0.151, 0.012, 0.140, Joint::heel, 0.040, 0.030, 0.035},
    {lead(Joint::small_toe), 0.176, 0.012, 0.115, Joint::big_toe, 0.040, 0.030, 0.040},
    {lead(Joint::ankle), 0.116, 0.041, 0.035, Joint::heel, 0.020, 0.020, 0.020},
    {lead(Joint::knee), 0.104, 0.283, 0.060, Joint::ankle, 0.050, 0.040, 0.050},
    {lead(Joint::hip), 0.060, 0.505, -0.036, Joint::knee, 0.050, 0.050, 0.050},
    {lead(Joint::shoulder), 0.100, 0.745, 0.110, Joint::hip, 0.060, 0.060, 0.080},
    {lead(Joint::elbow), 0.065, 0.595, 0.140, Joint::shoulder, 0.060, 0.060, 0.070},
    {lead(Joint::wrist), 0.028, 0.460, 0.175, Joint::elbow, 0.060, 0.060, 0.070},
    {lead(Joint::ear), 0.047, 0.840, 0.195, Joint::shoulder, 0.050, 0.050, 0.060},
    {lead(Joint::eye), 0.018, 0.810, 0.240, Joint::ear, 0.030, 0.040, 0.030},
    {centre(Joint::nose), 0.000, 0.787, 0.248, Joint::eye, 0.040, 0.040, 0.040},
    {centre(Joint::ball), 0.010, 0.013, 0.475, std::nullopt, 0.100, 0.050, 0.120},
    {lead(Joint::index_1), 0.015, 0.410, 0.190, Joint::wrist, 0.030, 0.030, 0.030},
    {lead(Joint::middle_1), 0.015, 0.410, 0.185, Joint::wrist, 0.030, 0.030, 0.030},
    {lead(Joint::little_1), 0.015, 0.415, 0.175, Joint::wrist, 0.030, 0.030, 0.030},
    {lead(Joint::thumb_2), 0.010, 0.410, 0.190, Joint::wrist, 0.030, 0.030, 0.030},
    {lead(Joint::thumb_4), 0.008, 0.380, 0.208, Joint::thumb_2, 0.020, 0.020, 0.020},
    {centre(Joint::grip_end), 0.020, 0.480, 0.150, Joint::wrist, 0.070, 0.070, 0.070},
    {centre(Joint::hands_mid), 0.015, 0.440, 0.180, Joint::wrist, 0.050, 0.050, 0.050},
    {centre(Joint::shaft_mid), 0.010, 0.250, 0.310, Joint::wrist, 0.090, 0.090, 0.120},
    {centre(Joint::hosel), 0.000, 0.020, 0.450, Joint::ball, 0.050, 0.030, 0.050},
    {centre(Joint::club_toe), 0.000, 0.015, 0.510, Joint::ball, 0.060, 0.030, 0.060},
    {centre(Joint::mid_spine), 0.000, 0.640, 0.040, Joint::hip, 0.070, 0.070, 0.090},
}};
/// How far a golfer as a whole stands turned from square to the target line. Common practice, no
/// source: from clearly closed to clearly open.
inline constexpr double turn_sigma_rad = 10.0 / 57.29577951308232;
/// Someone who stands still stands over his feet. The share of the body's mass that hangs at the
/// middle of each pair of joints, by the segment model of Winter 2009, table 4.1, from memory (its
/// shares of segments and of their lengths multiplied out); and where it all comes down between
/// heels (0) and toes (1): common practice, no source, as wide as most of the foot.
struct PairMass {
  Joint joint;
  double mass;
};
inline constexpr std::array<PairMass, 8> masses{{
    {Joint::shoulder, 0.4131},
    {Joint::elbow, 0.0384},
    {Joint::wrist, 0.0300},
    {Joint::hip, 0.3099},
    {Joint::knee, 0.1393},
    {Joint::ankle, 0.0403},
    {Joint::heel, 0.0145},
    {Joint::big_toe, 0.0145},
}};
inline constexpr double balance_along_foot = 0.42;
inline constexpr double balance_sigma_m = 0.035;
/// Both hands hold one grip.
inline constexpr Spread wrist_to_wrist_m{0.090, 0.028};
/// A joint bends only the way it bends: how far (m) a knee may lie behind the line hip–ankle, or an
/// elbow in front of the line shoulder–wrist, before it costs one standard deviation.
inline constexpr double wrong_bend_sigma_m = 0.020;

// --- Cameras ----------------------------------------------------------------------------------

/// Log of focal length over the picture's long side. A phone's main camera is 24–28 mm equivalent
/// (0.67–0.78), its video crop 1.0–1.3 (common practice, no source).
inline constexpr Spread log_focal_over_long_side{-0.235, 0.11};
inline constexpr double stated_focal_relative_sigma = 0.02;
inline constexpr Spread camera_height_m{1.00, 0.28};
inline constexpr double stated_height_sigma_m = 0.05;
inline constexpr Spread log_camera_distance_m{1.16, 0.25};
inline constexpr double stated_distance_relative_sigma = 0.05;
/// Squareness: how far the camera stands off the line that its view's name promises.
inline constexpr double camera_bearing_sigma_rad = 5.5 / 57.29577951308232;
inline constexpr double camera_roll_sigma_rad = 1.4 / 57.29577951308232;
inline constexpr double camera_aim_sigma_rad = 12.0 / 57.29577951308232;

// --- Other evidence ---------------------------------------------------------------------------

/// The direction of a stick laid down by eye; a point clicked by hand. Common practice, no source.
inline constexpr double stick_direction_sigma_rad = 1.0 / 57.29577951308232;
inline constexpr double clicked_sigma_px = 4.0;
inline constexpr double ball_point_sigma_m = 0.006;
/// Two films of different swings: how far a joint moves between takes, as seen from their mean.
inline constexpr double take_to_take_sigma_m = 0.006;
/// A posterior from one film is not quite normal: with the depth of a limb open, its spread at the
/// best fit is too narrow by about this factor on made-up golfers (tests/posture).
inline constexpr double one_film_widening = 1.06;
/// Points in space that were guessed from the picture beside them, across it and along the line of
/// sight: so wide because they share its errors. Fitted on the eight rendered films at address
/// (tests/films): squared errors are 3 % less than without for a film down the line and for two,
/// the same for one from in front; half as wide, those are 4 % more and intervals hold less often.
inline constexpr double beside_picture_across_sigma_m = 0.080;
inline constexpr double beside_picture_depth_sigma_m = 0.120;

}  // namespace rangecheck::posture::prior
