// SPDX-License-Identifier: MIT
// Made-up films with exchanged sides, and what pose makes of them: for the test and for the table.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "generator/exchanged.hpp"
#include "generator/swing.hpp"
#include "pose/golfer.hpp"

namespace rangecheck::test {

/// One film: everything else about it follows from the seed.
struct SidesCase {
  samples::View view = samples::View::face_on;
  samples::Skeleton skeleton = samples::Skeleton::points_33;
  bool swing = true;                  ///< else standing at address
  std::optional<samples::Part> part;  ///< nothing: a right film
  samples::When when = samples::When::always;
  std::uint64_t seed = 0;

  std::string name() const;
};

/// Counts of points that were exchanged in the file and lie apart by more than 5 % of the golfer's
/// height, and of those that came out wrong by as much.
struct SidesOutcome {
  std::size_t exchanged = 0;  ///< in the file
  std::size_t put_right = 0;  ///< of those
  std::size_t left_out = 0;   ///< of those
  std::size_t wrong = 0;      ///< in the track, whether right in the file or not
  std::vector<std::pair<std::size_t, LandmarkId>> where;  ///< frame and point of the wrong ones
  std::size_t right_lost = 0;  ///< right in the file, apart, and left out
  std::size_t right = 0;       ///< right in the file and apart
  double most_moved = 0;       ///< of any point that was right, over height
  std::string refused;         ///< the error, if any
  std::vector<std::string> notes;
  /// Refused, or a note says of every pair that is wrong that nothing shows which is which.
  bool flagged() const;
};

SidesOutcome outcome_of(const SidesCase& each);

/// `count` cases that go through views, point sets, parts and times; seeds from `first_seed`.
std::vector<SidesCase> sides_cases(std::size_t count, std::uint64_t first_seed);

}  // namespace rangecheck::test
