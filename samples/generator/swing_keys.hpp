// SPDX-License-Identifier: MIT
// The postures that a swing passes, and when: how they spread over golfers and over the swings of
// one golfer. A swing is drawn as one number a key; the motion runs smoothly through them.
#pragma once

#include <span>
#include <vector>

#include "generator/figure.hpp"
#include "generator/swing.hpp"

namespace rangecheck::samples {

/// When, seconds from the moment at which the club sets off.
struct SwingTiming {
  double backswing_s = 0, downswing_s = 0;
  double release_s = 0;  ///< impact until the shaft is about level
  double arms_s = 0;     ///< impact until the arms are about level
  double finish_s = 0;   ///< impact until everything is still

  double impact_s() const { return backswing_s + downswing_s; }
  double end_s() const { return impact_s() + finish_s; }
  /// 0: the club sets off. 1: top. 2: impact. 3: shaft level. 4: arms level. 5: still.
  double at(double phase) const;
  double phase(double time_s) const;     ///< inverse of `at`, within [0, 5]
  std::array<double, 6> phases() const;  ///< the times of the whole phases
};

/// One number of a posture at one phase of the swing.
struct Key {
  /// over_forearm: from where the lead forearm lies over the shaft as at address.
  /// trail_elbow: as the flexion of the trail elbow that it gives.
  enum class Measured { absolutely, from_address, over_forearm, trail_elbow };
  Dof dof;
  double phase;
  double mean, sd;  ///< degrees; statures for lengths
  Measured measured = Measured::from_address;
  bool full_only = false;  ///< too fine for short swings
};
/// In order of phase for each Dof.
std::span<const Key> swing_keys();

/// How much of a full swing a kind of swing is.
struct Extent {
  double back, club_back, at_impact, through;
  double finish;  ///< of the time from impact to the finish
};
Extent extent_of(SwingKind kind);

/// One golfer's swing, or how one swing differs from it.
struct SwingNumbers {
  std::vector<double> keys;  ///< what is added to each key's mean
  double lag_deg = 0;        ///< of the shaft against the lead forearm at the top
  double hands_ahead = 0;    ///< at impact, farther than at address, statures
  double arms_behind = 0;    ///< share of the trail arm's way from top to impact that is left when
                             ///< the shaft comes down level
  double upright_deg = 0;    ///< of the shaft at impact, steeper than at address
  double lead_heel_deg = 0, trail_heel_deg = 0, trail_heel_at_impact_deg = 0, trail_foot_deg = 0;
  double order = 0;  ///< share of the backswing by which the pelvis turns round before the arms
};

/// A golfer's own way.
SwingNumbers draw_swing_numbers(Random& random);
/// How one swing of a golfer differs from his mean one.
SwingNumbers draw_swing_variation(Random& random);
SwingNumbers varied(const SwingNumbers& mean, const SwingNumbers& variation, double times);

SwingTiming draw_timing(Random& random, const SwingOptions& options);
/// Each length changed by a few percent.
SwingTiming draw_timing_variation(Random& random);
SwingTiming varied(const SwingTiming& mean, const SwingTiming& variation, double times);

}  // namespace rangecheck::samples
