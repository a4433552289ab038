// SPDX-License-Identifier: MIT
// Paths of one number in time as bodies make them: at rest, moving, at rest again.
#pragma once

#include <array>
#include <vector>

namespace rangecheck::samples {

/// 0 up to 0, 1 from 1 on, in between 10x³ − 15x⁴ + 6x⁵: speed and acceleration are continuous.
double smooth_step(double x);

/// `value` up to zero; above it bends off and never passes `width`. Continuous up to the second
/// derivative.
double held_below(double value, double width);

struct Knot {
  double time_s = 0, value = 0;
};

/// A path through all knots, at rest at both ends and beyond: quintic pieces, joined with one speed
/// and one acceleration. It turns round only at knots and does not swing out over them.
class SmoothPath {
 public:
  SmoothPath() = default;
  /// Knots in order of time, at least two.
  explicit SmoothPath(const std::vector<Knot>& knots);

  double at(double time_s) const;
  double speed(double time_s) const;  ///< per second

 private:
  struct Node {
    double time_s, value, speed, acceleration;
  };
  /// One quintic piece: where in it, its length, and its coefficients in powers of the share done.
  struct Piece {
    double share, length_s;
    std::array<double, 6> powers;
  };
  Piece piece_at(double time_s) const;

  std::vector<Node> nodes_;
};

}  // namespace rangecheck::samples
