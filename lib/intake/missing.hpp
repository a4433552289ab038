// SPDX-License-Identifier: MIT
// Which points were not seen, in all the ways in which estimators say so. What is asked of every
// point of a film is inline.
#pragma once

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "intake/raw_film.hpp"

namespace rangecheck::intake {

/// False for NaN, and for what is so far away that there is no picture and no room; keeps sums
/// finite.
inline bool is_given(double value) {
  constexpr double farthest = 1e9;
  return std::abs(value) <= farthest;
}
inline bool is_given(const RawPoint& point, bool in_space) {
  return is_given(point.x) && is_given(point.y) && (!in_space || is_given(point.z));
}

/// True for a place that stands for none: no number, all zero, or −1 in the picture.
inline bool is_nowhere(const RawPoint& point, bool in_space) {
  if (!is_given(point, in_space)) return true;
  if (in_space) return point.x == 0 && point.y == 0 && point.z == 0;
  // No real landmark lies on any of these to the last digit.
  return (point.x == 0 && point.y == 0) || (point.x == -1 && point.y == -1) ||
         (point.x == 0 && point.y == -3 && point.score == 0);
}

/// What scores mean in the lists of one film.
struct Scoring {
  Score kind = Score::confidence;
  double least = 0;           ///< below it a point of a confidence counts as not seen
  bool says_nothing = false;  ///< all of them are 0
  bool settled = false;       ///< everything that is listed was seen
  double full = 1;            ///< of labels: the largest there is
};

/// True when points have scores and all of them are 0: some builds of estimators write that.
class ZeroScores {
 public:
  void add(const std::vector<RawPoint>& points, bool in_space);
  bool all() const { return any_ && most_ == 0 && least_ == 0; }
  double most() const { return most_; }

 private:
  bool any_ = false;
  double least_ = 0, most_ = 0;
};

/// The confidence of a point, 0..1; nothing for a missing one.
inline std::optional<double> confidence_of(const RawPoint& point, const Scoring& scoring,
                                           bool in_space) {
  // What is left of a point that a person marked as hidden; no source.
  constexpr double hidden = 0.5;
  if (scoring.settled) {
    if (!is_given(point, in_space)) return std::nullopt;
    return std::isnan(point.score) ? 1 : std::clamp(point.score, 0.0, 1.0);
  }
  if (is_nowhere(point, in_space)) return std::nullopt;
  const bool given = !std::isnan(point.score) && !scoring.says_nothing;
  if (!given) return 1;
  if (scoring.kind == Score::visibility) return std::clamp(point.score, 0.0, 1.0);
  if (point.score <= 0 || point.score < scoring.least) return std::nullopt;
  if (scoring.kind == Score::label) return point.score < scoring.full ? hidden : 1;
  return std::min(point.score, 1.0);
}

/// Where down is in a film's points in space.
struct Down {
  bool is_z = false;  ///< along z, else along y
  int sign = 1;
};
Down down_in(SpaceAxes axes);

}  // namespace rangecheck::intake
