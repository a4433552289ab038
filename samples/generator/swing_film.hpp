// SPDX-License-Identifier: MIT
// What happens in front of the camera: standing, maybe a waggle or a practice swing, the swing,
// holding the finish; and when which picture is taken.
#pragma once

#include <vector>

#include "generator/swing_motion.hpp"

namespace rangecheck::samples {

/// The scene in time. Zero is the moment at which the club sets off for the real swing.
class SwingScene {
 public:
  SwingScene(Random& random, SwingMotion motion, const SwingOptions& options);

  /// `time_s` in [start_s, end_s].
  Points points(double time_s) const;
  /// As in SwingTiming, 0 when standing at address before the swing.
  double phase(double time_s) const;
  double start_s() const { return start_s_; }
  double end_s() const { return end_s_; }
  const SwingMotion& motion() const { return motion_; }

 private:
  Dofs going_back(double share) const;
  bool can_go_straight_back() const;
  void sway(Dofs& dofs, double time_s) const;
  void waggle(Dofs& dofs, double time_s) const;

  SwingMotion motion_;
  struct Sway {
    Dof dof;
    double by, period_s, phase;
  };
  std::vector<Sway> sways_;
  double still_s_;  ///< before the swing, nothing but sway
  double held_s_;   ///< at the finish
  double waggle_deg_ = 0;
  double practice_starts_s_ = 0;
  Eigen::Vector3d practice_place_ = Eigen::Vector3d::Zero();  ///< where he stands for it
  bool has_practice_ = false, straight_back_ = true;
  double start_s_ = 0, end_s_ = 0;
};

/// Which pictures are in the file, and when each was taken.
struct Picture {
  std::size_t number = 0;
  double time_s = 0;      ///< of the scene
  bool repeated = false;  ///< shows what the picture before it in the file shows
};
std::vector<Picture> take_pictures(Random& random, const SwingOptions& options, double from_s,
                                   double to_s);

}  // namespace rangecheck::samples
