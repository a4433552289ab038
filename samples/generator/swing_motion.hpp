// SPDX-License-Identifier: MIT
// One swing in continuous time: where every point is at any moment, and when each position is.
#pragma once

#include <optional>

#include "base/position.hpp"
#include "generator/smooth_path.hpp"
#include "generator/swing_keys.hpp"

namespace rangecheck::samples {

/// What turns round at the top.
enum class TopOf { club, hands };

class SwingMotion {
 public:
  /// Nothing when the body cannot do the swing.
  static std::optional<SwingMotion> plan(const Golfer& golfer, SwingKind kind,
                                         const SwingNumbers& numbers, const SwingTiming& timing);

  /// The posture, `time_s` after the club set off: the address before, the finish after the swing.
  Dofs dofs(double time_s) const;
  Points points(double time_s) const;

  /// When each position that the swing has is, by the definitions of base/position.hpp; seconds
  /// after the club set off.
  PositionMap<double> events(TopOf top) const;

  /// A key of this swing: when and where.
  struct Laid {
    Dof dof;
    double phase, value;
  };

  const Figure& figure() const { return figure_; }
  const SwingTiming& timing() const { return timing_; }
  SwingKind kind() const { return kind_; }

 private:
  struct Rise {
    double from_s, to_s, by;
  };
  struct Path {
    SmoothPath through;
    std::vector<Rise> rises;
  };

  SwingMotion(const Golfer& golfer, SwingKind kind, const SwingTiming& timing)
      : figure_(golfer), kind_(kind), timing_(timing) {}
  bool lay_paths(const SwingNumbers& numbers);
  void lay_path(Dof dof, const std::vector<Laid>& laid, double order);
  bool lay_trail_arm(const SwingNumbers& numbers, std::vector<Laid>& laid);
  bool lay_roll(const SwingNumbers& numbers, double at_impact_deg);
  void lay_feet(const SwingNumbers& numbers);
  Path& path(Dof dof) { return paths_[static_cast<std::size_t>(dof)]; }
  const Path& path(Dof dof) const { return paths_[static_cast<std::size_t>(dof)]; }
  double top_of_hands() const;  ///< when they are slowest between back and down
  double risen(Dof dof, double time_s) const;
  bool moves_as_bodies_do() const;
  bool passes_positions(TopOf top) const;

  Figure figure_;
  SwingKind kind_;
  SwingTiming timing_;
  std::array<Path, dof_count> paths_;
};

/// The golfer's mean swing, as `draw_swing` films it (between two takes) for this seed.
SwingMotion draw_motion(std::uint64_t seed, const SwingOptions& options);

}  // namespace rangecheck::samples
