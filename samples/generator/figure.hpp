// SPDX-License-Identifier: MIT
// A golfer's body and club in any posture of a swing. A posture is a few dozen numbers, one a
// `Dof`; the body closes on feet that stand and on one grip, so bones keep their length whatever
// the numbers are. Golfer frame.
#pragma once

#include <Eigen/Core>
#include <array>
#include <optional>

#include "generator/golfer.hpp"

namespace rangecheck::samples {

/// What moves. Angles in degrees, lengths in metres; from the world's axes where nothing else is
/// said.
enum class Dof : std::size_t {
  pelvis_x,  ///< of the middle of the hips, from its place at address
  pelvis_y,
  pelvis_z,
  pelvis_turn,   ///< of the hip line, open positive
  pelvis_tilt,   ///< trail side lower positive
  forward_bend,  ///< of the line from the hips' to the shoulders' middle, against upright
  side_bend,
  chest_turn,    ///< about the spine, from address, open positive
  chest_tilt,    ///< of the shoulder line in the plane of the chest, from address
  lead_elbow,    ///< flexion
  trail_span,    ///< trail shoulder to lead wrist, metres
  trail_limit,   ///< flexion of the trail elbow from which on it resists being straightened
  arms_up,       ///< of the hands about the shoulder line: 0 along the trunk, 90 straight in front
  club_back,     ///< in the plane of the club at address: 0 down the slope, 90 away from the target
  club_up,       ///< of the club above that plane
  club_roll,     ///< of the hands' upper side about the shaft, against the plane's upper side
  lead_elbow_x,  ///< toward where the elbow points, in the chest: X along the shoulder line to the
                 ///< lead side, Y up the spine, Z to the front
  lead_elbow_y,
  lead_elbow_z,
  trail_elbow_x,
  trail_elbow_y,
  trail_elbow_z,
  lead_knee_in,  ///< from address, toward the other leg
  trail_knee_in,
  lead_heel,   ///< pitch of the foot about the tip of the big toe, heel up
  trail_heel,  ///< likewise
  trail_foot,  ///< turn of the foot about the tip of the big toe, to the target
  head_free,   ///< 0: the head stays where it was at address; 1: it goes along with the chest
  head_turn,   ///< to the target
  head_tilt,
  gaze_down
};
inline constexpr std::size_t dof_count = 31;

/// A value for each Dof.
class Dofs {
 public:
  double& operator[](Dof dof) { return values_[static_cast<std::size_t>(dof)]; }
  double operator[](Dof dof) const { return values_[static_cast<std::size_t>(dof)]; }

 private:
  std::array<double, dof_count> values_{};
};

/// One golfer with his club.
class Figure {
 public:
  explicit Figure(const Golfer& golfer);

  /// The posture that gives the golfer's points at address.
  const Dofs& address() const { return address_; }

  /// All points, or nothing when arms or legs do not reach.
  std::optional<Points> pose(const Dofs& dofs) const;

  /// Brings the club head back to where it stood at address, the face as then, with the middle of
  /// the hands at `hands_x_m` and the shaft steeper than at address by `upright_deg`: fills the
  /// arms, the club and the forward bend of `dofs`, given all the rest and the lead elbow's
  /// flexion. False when the body does not allow it.
  bool strike(Dofs& dofs, double hands_x_m, double upright_deg) const;

  /// Where the club points, unit vector from hands to head.
  Eigen::Vector3d shaft(const Dofs& dofs) const;
  /// Rolls the club so that the lead forearm lies over the shaft as it does at address. With a
  /// wished flexion of the trail elbow, fills the trail span that gives it. False when the arms do
  /// not reach.
  bool hold_naturally(Dofs& dofs, std::optional<double> trail_elbow_deg = std::nullopt) const;
  double trail_elbow_at_address() const { return trail_elbow_deg_; }

  const Golfer& golfer() const { return golfer_; }

 private:
  struct Chest {
    Eigen::Matrix3d axes;  ///< columns: to the lead side, up the spine, to the front
    Eigen::Vector3d lead_shoulder, trail_shoulder;
  };

  void read_legs();
  void read_trunk();
  void read_arms();
  void read_head();

  void place_feet(const Dofs& dofs, Points& points) const;
  bool place_legs(const Dofs& dofs, Points& points) const;
  /// The wished lift of the pelvis, less where a leg gets too long for it.
  double allowed_lift(Side side, const Eigen::Vector3d& hip, const Points& points,
                      double lift_m) const;
  Chest place_trunk(const Dofs& dofs, Points& points) const;
  bool place_arms(const Dofs& dofs, const Chest& chest, Points& points) const;
  void place_head(const Dofs& dofs, const Chest& chest, Points& points) const;

  Eigen::Matrix3d club(const Dofs& dofs) const;
  std::optional<Eigen::Vector3d> lead_wrist(const Dofs& dofs, const Chest& chest,
                                            const Eigen::Vector3d& between_wrists) const;
  std::optional<Eigen::Vector3d> elbow(const Dofs& dofs, const Chest& chest, Side side,
                                       const Eigen::Vector3d& wrist) const;
  /// Fills what turns the hands to where the lead wrist is; the flexions are the caller's.
  void set_arms(Dofs& dofs, const Chest& chest, const Eigen::Vector3d& lead_wrist) const;
  /// The trail span at which the trail elbow is bent so.
  std::optional<double> span_for(const Dofs& dofs, const Chest& chest,
                                 double trail_elbow_deg) const;
  double arm_reach(double flexion_deg) const;
  /// Fills what gives the club these axes.
  void aim_club(Dofs& dofs, const Eigen::Matrix3d& club) const;
  std::optional<Eigen::Matrix3d> club_at_impact(double hands_x_m, double upright_deg) const;

  Golfer golfer_;
  Dofs address_;
  double trail_elbow_deg_ = 0;
  double lead_knee_yaw_ = 0, trail_knee_yaw_ = 0;   ///< where the knees point, from Z to X, radians
  Eigen::Vector3d pelvis_, spine_, shoulder_line_;  ///< at address
  double slope_ = 0;  ///< of the club at address against the ground, radians
  Eigen::Matrix3d
      club_;         ///< its axes at address: along the shaft, to the upper side, square to both
  Points in_hands_;  ///< hands and club, from the lead wrist, in the club's axes
  Points in_head_;   ///< from the middle of the head, in its own axes
  Eigen::Vector3d head_middle_;  ///< at address
};

}  // namespace rangecheck::samples
