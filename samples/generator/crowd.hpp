// SPDX-License-Identifier: MIT
// Films of a golfer with other people in the picture, as an estimator that takes each person in a
// frame for itself would give them: in any order, with identities that can't be trusted, one lost
// or with another's limbs where two overlap.
//
//   CrowdOptions options;
//   options.others = {Other::passer};
//   const CrowdFilm crowd = draw_crowd(417, options);
//   crowd.people[7]           // as detected: what a program gets
//   crowd.golfer.frames[7]    // the golfer's own points in that frame: truth
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "generator/swing.hpp"

namespace rangecheck::samples {

/// Who else is there.
enum class Other {
  passer,      ///< walks through, before or behind the golfer
  coach,       ///< stands near, nearer to the camera or farther, and talks with the hands
  golfer,      ///< swings too, farther from the camera
  twin,        ///< swings too, as near: nobody could say who is meant
  reflection,  ///< the golfer in a mirror or a window
};

struct CrowdOptions {
  SwingOptions swing;  ///< of the golfer; its first view is filmed
  std::vector<Other> others;
  bool address_only = false;       ///< a second of standing at address
  double muddles_per_s = 2;        ///< how often two who overlap begin to be muddled
  double duplicate_chance = 0.02;  ///< each frame, that the golfer is given twice
  double ghost_chance = 0.02;      ///< each frame, that a few points of nobody are given
  double false_chance = 0.01;      ///< each frame, that a whole person is given where nobody is
};

/// One person as given.
struct Seen {
  DetectedFrame points;
  std::optional<int> track;  ///< what the estimator says who it is
};

struct CrowdFilm {
  FilmedSwing golfer;                     ///< as the golfer would be detected alone
  std::vector<std::vector<Seen>> people;  ///< each frame
};

/// The same for the same seed and options.
CrowdFilm draw_crowd(std::uint64_t seed, const CrowdOptions& options);

}  // namespace rangecheck::samples
