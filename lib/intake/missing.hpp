// SPDX-License-Identifier: MIT
// Which points were not seen, in all the ways in which estimators say so.
#pragma once

#include <optional>
#include <vector>

#include "intake/raw_film.hpp"

namespace rangecheck::intake {

/// True for a place that stands for none: no number, all zero, or −1 in the picture.
bool is_nowhere(const RawPoint& point, bool in_space);

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
std::optional<double> confidence_of(const RawPoint& point, const Scoring& scoring, bool in_space);

/// Where down is in a film's points in space.
struct Down {
  bool is_z = false;  ///< along z, else along y
  int sign = 1;
};
Down down_in(SpaceAxes axes);

}  // namespace rangecheck::intake
