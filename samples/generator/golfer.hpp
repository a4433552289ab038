// SPDX-License-Identifier: MIT
// A made-up golfer at address: a body with segments of its own and a posture given by named
// parameters, from which every landmark follows. Frame and signs are those of the golfer frame
// (X to the target, Y up, Z to the ball, origin on the ground under the mid-point of the heels).
// Nothing here knows how a posture is estimated: this is the truth that estimates are held against.
#pragma once

#include <Eigen/Core>
#include <map>
#include <optional>
#include <string>

#include "base/skeleton.hpp"
#include "generator/random.hpp"

namespace rangecheck::samples {

using Points = LandmarkMap<Eigen::Vector3d>;  ///< metres, golfer frame

enum class Age { adult, junior };
enum class Setup { iron, driver, wedge, chip, putter };
/// neutral: square lines. preset: closed stance, shoulders about 30 degrees open to it.
enum class Family { neutral, preset };

/// Lengths between joint centres, metres.
struct Body {
  double stature_m = 0;
  double thigh_m = 0, shank_m = 0;
  double trunk_m = 0;  ///< middle of the hips to middle of the shoulders
  double upper_arm_m = 0, forearm_m = 0, palm_m = 0;  ///< palm: wrist to the middle of the grip
  double hips_m = 0, shoulders_m = 0;                 ///< joint centre to joint centre
  double foot_m = 0;                                  ///< heel to tip of the big toe
  double head = 1;                                    ///< size of the head, 1 = an adult of 1.75 m
};

/// How the hands lie on the grip. Angles clockwise positive, as the golfer sees it who looks down
/// the shaft: a strong grip has both hands turned clockwise.
struct Grip {
  double lead_turn_deg = 0, trail_turn_deg = 0;  ///< of the hand, from where the arm would lay it
  double lead_thumb_deg = 15, trail_thumb_deg = -20;  ///< round the grip from its top
  double half_gap_m = 0.035;  ///< half the distance between the middles of the two hands
};
enum class GripKind { weak, neutral, strong };

/// The posture. Angles in degrees; lengths in statures, so that one set fits every body.
struct Address {
  double stance_width = 0;  ///< heel to heel
  double heel_line_deg = 0;
  double lead_flare_deg = 0, trail_flare_deg = 0;
  double knee_flexion_deg = 0;                         ///< mean of both knees
  double lead_knee_in_deg = 0, trail_knee_in_deg = 0;  ///< knee points inside the foot's direction
  double pelvis_x = 0, pelvis_z = 0;                   ///< middle of the hips
  double pelvis_turn_deg = 0, pelvis_tilt_deg = 0;
  double forward_bend_deg = 0, side_bend_deg = 0;
  double shoulder_turn_deg = 0, shoulder_tilt_deg = 0;
  double lead_elbow_flexion_deg = 0;
  double lead_elbow_swivel_deg = 0, trail_elbow_swivel_deg = 0;  ///< about shoulder to wrist
  double hands_out = 0;      ///< grip in front of the middle of the shoulders, along Z
  double hands_ahead = 0;    ///< grip ahead of the ball, along X
  double ball_fraction = 0;  ///< of the way from the trail to the lead heel (a plain number)
  double shaft_lie_deg = 0;  ///< shaft against the ground, seen down the line
  double neck_bend_deg = 0;  ///< added to the forward bend of the trunk
  double gaze_down_deg = 0;
  double head_turn_deg = 0, head_tilt_deg = 0;
  Grip grip;
};

struct Golfer {
  Body body;
  Address address;
  Points points;
};

/// Segment proportions spread about 1.2 times as widely as people's do.
Body draw_body(Random& random, Age age);

/// A posture from the family and setup; whether the body can take it is for `pose` to say.
Address draw_address(Random& random, Setup setup, Family family);

Grip draw_grip(Random& random, GripKind kind);

/// The same golfer's next ball differs from his mean posture by this, to be added or taken away.
/// Coherent for the body: hips, bend and hands move as wholes.
Address draw_variation(Random& random);
Address varied(const Address& mean, const Address& variation, double times);

/// All landmarks, or nothing when arms or legs do not reach. Hands are joined on the grip; the
/// pelvis height follows from the knees, the hands' height from the lead arm.
std::optional<Points> pose(const Body& body, const Address& address);

/// Draws postures until one closes with both knees and the trail arm bent as golfers bend them.
Golfer draw_golfer(Random& random, Age age, Setup setup, Family family, const Grip& grip = {});

/// Measures of the true points. Lines in the ground plane open positive, flexions 0 when straight,
/// tilt positive with the trail side lower, insets positive when the knee is inside the ankle.
/// Angles in degrees; keys that end in `_in` are inches.
std::map<std::string, double> true_measures(const Points& points);

}  // namespace rangecheck::samples
