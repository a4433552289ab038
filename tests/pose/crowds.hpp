// SPDX-License-Identifier: MIT
// Made-up films with several people, and what pose makes of them: shared by the test and the table
// for people.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "generator/crowd.hpp"
#include "pose/golfer.hpp"

namespace rangecheck::test {

/// A sort of scene.
struct CrowdKind {
  std::string_view name;
  std::vector<samples::Other> others;
  bool address_only = false;
  bool nobody_could_tell = false;  ///< refusing is all that can be done
};
std::span<const CrowdKind> crowd_kinds();

/// View, point set, rate and swing follow from the seed.
samples::CrowdFilm crowd_of(const CrowdKind& kind, std::uint64_t seed);
intake::FilmedView film_of(const samples::CrowdFilm& crowd);

/// What became of one film.
struct CrowdOutcome {
  std::string refused;  ///< why, or empty
  std::size_t frames = 0;
  std::size_t left_out = 0;        ///< frames in which he was given and the track is empty
  std::size_t points_dropped = 0;  ///< of the golfer's own, in frames that are not left out
  std::size_t points = 0;          ///< his own, in frames that are not left out
  std::size_t wrong = 0;           ///< frames with more than two joints that are not his
  std::size_t flagged = 0;         ///< notes
};
CrowdOutcome judge(const samples::CrowdFilm& crowd, const Result<pose::Track>& track);

}  // namespace rangecheck::test
