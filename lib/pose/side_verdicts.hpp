// SPDX-License-Identifier: MIT
// Pair by pair and frame by frame: right, exchanged, or not to be told.
#pragma once

#include <vector>

#include "pose/side_links.hpp"
#include "pose/side_pairs.hpp"
#include "pose/side_path.hpp"
#include "pose/side_phases.hpp"

namespace rangecheck::pose {

/// Points of a pair nearer to each other than this stay though it is open which is which: it is
/// within an estimator's errors, 4 % of a golfer's height. Two hands on one grip lie about a hand's
/// breadth apart, 0.09 m, and real estimators err by 25 to 36 mm along each axis at a wrist that
/// moves or is hidden (rendered golfers of known joints): 0.12 m between two of them is within
/// both, and what is measured on hands is mostly their middle.
constexpr double no_matter_m(std::size_t pair) {
  return pair == index_of(Pair::hands) ? 0.12 : 0.068;
}

/// What is known of a whole film.
struct Judged {
  Links links;
  std::vector<PairCosts> exchanged;  ///< as of exchanged_by
  PairSet exchanged_ever = 0;        ///< pairs that are exchanged for certain somewhere
  PairSet doubted_ever = 0;          ///< pairs that can't be told somewhere
  PairSet unsteady = 0;              ///< pairs that something speaks against somewhere
  bool all_open = false;             ///< of most of the body: the estimator's names are kept
  PairSet believed = 0;              ///< apart at address, with nothing to show which is which
};

/// `back`: a face-on film that shows the golfer's back.
Judged judge(const Pairs& pairs, const Phases& phases, intake::View view, bool back);

/// Of the pairs of one frame.
struct Verdicts {
  PairSet exchanged = 0;
  PairSet open = 0;      ///< apart, and not to be told
  PairSet believed = 0;  ///< apart, hardly to be told, and taken for right
  PairSet seen = 0;      ///< on both sides
  PairSet visible = 0;   ///< of those exchanged, the ones apart
};

Verdicts verdicts_of(const PairsFrame& frame, const Judged& judged, std::size_t number);

}  // namespace rangecheck::pose
