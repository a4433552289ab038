// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <string>

#include "posture/evidence.hpp"

namespace rangecheck::test {

/// Under sanitizers everything takes ten times as long: few golfers then, for sanity, and nothing
/// is judged that needs many.
#ifdef __SANITIZE_ADDRESS__
inline constexpr bool many_golfers = false;
#else
inline constexpr bool many_golfers = true;
#endif

/// How one measure did over a population. Angles in degrees, lengths in inches, ratios as they are.
struct Performance {
  int tried = 0;  ///< the truth has a value
  int seen = 0;
  int covered = 0;           ///< of the seen: truth inside the stated 95 % interval
  double error = 0;          ///< sum over the seen
  double squared_error = 0;  ///< of the seen
  double uncertainty = 0;    ///< sum over the seen

  double seen_share() const;
  double rms() const;
  double coverage() const;
  double mean_uncertainty() const;
};

struct Population {
  int golfers = 0;
  int refused = 0;                              ///< a finding refuses the posture, or there is none
  std::map<std::string, Performance> measures;  ///< by rule id

  /// How `id` did; nought of everything when it was never tried.
  Performance of(const std::string& id) const;
  /// All measures together: only counts mean anything.
  Performance all() const;
};

/// Which films are given.
enum class Films { face_on, down_the_line, both };

/// Adults of both families with iron, driver and wedge, and one junior in ten.
samples::Options options_for(std::uint64_t seed, Films films);

/// Holds every measure of `posture` against the same rule at the true points.
void hold(const Result<posture::Posture>& posture, const samples::Points& truth,
          Population& population);

/// Holds one measurement against its true value (SI).
void hold(const measure::Measurement& measured, double truth_si, Performance& performance);

/// Draws golfers and cameras with seeds first…first+count−1. `vary` may change what is drawn,
/// `tell` what the estimate is told.
struct Trial {
  std::function<void(samples::Options&)> vary = {};
  std::function<void(const samples::Drawn&, posture::Evidence&)> tell = {};
};
Population run_population(Films films, std::uint64_t first, int count, const Trial& trial = {});

/// One line a measure: seen share, RMS error, mean error, mean stated u, coverage.
std::string table(const Population& population);

}  // namespace rangecheck::test
