// SPDX-License-Identifier: MIT
// Made-up swings through the estimator, position by position.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "generator/space_detector.hpp"
#include "generator/swing.hpp"
#include "motion/film_motion.hpp"
#include "posture/population.hpp"
#include "posture/position.hpp"

namespace rangecheck::test {

/// A made-up film of a swing as intake would read it, with the ball marked.
intake::FilmedView marked_film_of(const samples::FilmedSwing& truth);

/// The rule at the true points now and at address, SI; nothing when they don't have it.
std::optional<double> truth_of(const measure::Rule& rule, const samples::Points& now,
                               const samples::Points& at_address);

/// How the moments are told to the estimate.
enum class Moments {
  true_ones,  ///< the positions' true times, exactly
  found       ///< as motion finds them, with its uncertainty
};

struct SwingTrial {
  Films films = Films::both;
  Moments moments = Moments::true_ones;
  std::function<void(samples::SwingOptions&)> vary = {};
  std::optional<samples::SpaceKind> space = {};  ///< films have this kind's points only
};

/// Every measure at every position of swings first…first+count−1; keys are measure::check_id.
Population run_swings(const SwingTrial& trial, std::uint64_t first, int count);

/// The same for a film of a real estimator with known joints (tests/films/ID, or another folder).
/// Positions as motion finds them are held against the joints at their true moments. `change` may
/// take something from each film first.
void hold_film(const std::filesystem::path& folder, Films films, Moments moments,
               Population& population,
               const std::function<intake::FilmedView(intake::FilmedView)>& change = {});

/// One line a measure, position by position.
std::string swing_table(const Population& population);

}  // namespace rangecheck::test
