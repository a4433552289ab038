// SPDX-License-Identifier: MIT
// How far the times that motion finds lie from the true ones, over many films.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "generator/swing.hpp"
#include "motion/film_motion.hpp"

namespace rangecheck::test {

/// One position over many films.
struct EventErrors {
  std::size_t shown = 0;                  ///< in how many films it truly is
  std::vector<double> error_s, stated_s;  ///< of those in which it was found, error with its sign

  /// Of the sizes of the errors.
  double quantile_s(double share) const;
  double mean_s() const;
  double mean_stated_s() const;
  /// Share of the truths within two stated standard uncertainties.
  double covered() const;
};

struct Outcome {
  std::array<EventErrors, position_count> positions;
  std::size_t films = 0;
  std::size_t no_swing = 0;          ///< films in which no swing was found
  std::vector<std::string> refused;  ///< what film_motion said of films that it refused
  std::size_t silently_wrong = 0;    ///< films with another swing than the real one

  EventErrors& operator[](Position position) { return positions[index_of(position)]; }
  const EventErrors& operator[](Position position) const { return positions[index_of(position)]; }
};

/// Adds what motion makes of one film whose true times are known.
void judge(const pose::Track& track, std::optional<double> rate_hz, std::string_view kind,
           const PositionMap<double>& truth_s, Outcome& out);

/// `count` made-up swings, one film each. The same for the same seeds and options.
Outcome outcome_of(samples::SwingOptions options, samples::View view, std::uint64_t first_seed,
                   int count);

}  // namespace rangecheck::test
