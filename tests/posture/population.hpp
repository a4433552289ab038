// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "generator/drawn.hpp"
#include "posture/address.hpp"

namespace rangecheck::test {

/// What the estimate of a made-up golfer's films is given: landmarks as detected, the marked ball,
/// the stature (as stated: to 1 cm), no camera facts and no stick.
posture::Evidence evidence_of(const samples::Drawn& drawn, std::uint64_t seed);

/// How one measure did over a population. Angles in degrees, lengths in inches, ratios as they are.
struct Performance {
  int tried = 0;  ///< the truth has a value
  int seen = 0;
  int covered = 0;           ///< of the seen: truth inside the stated 95 % interval
  double error = 0;           ///< sum over the seen
  double squared_error = 0;  ///< of the seen
  double uncertainty = 0;    ///< sum over the seen

  double rms() const;
  double coverage() const;
  double mean_uncertainty() const;
};

struct Population {
  int golfers = 0;
  int refused = 0;                              ///< a finding refuses the posture, or there is none
  std::map<std::string, Performance> measures;  ///< by rule id
};

/// Which films are given.
enum class Films { face_on, down_the_line, both };

/// Draws golfers and cameras with seeds first…first+count−1 and holds every measure against the
/// same rule at the true points.
Population run_population(Films films, std::uint64_t first, int count);

/// One line a measure: seen share, RMS error, mean stated u, coverage.
std::string table(const Population& population);

}  // namespace rangecheck::test
