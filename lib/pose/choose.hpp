// SPDX-License-Identifier: MIT
// Which of the people in the film is the golfer, and how sure that is.
#pragma once

#include "pose/signs.hpp"

namespace rangecheck::pose {

/// What is asked about each person, in the order of the weights; larger is more of it.
inline constexpr std::size_t question_count = 13;
using Answers = std::array<double, question_count>;

/// One person's chances.
struct Candidate {
  Signs signs;
  Answers answers{};
  bool reflection = false;  ///< moves in step with someone larger
  double probability = 0;   ///< that this is the golfer; all people of a film sum to 1
};

/// Who is likeliest, and who else might be.
struct Choice {
  std::size_t golfer = 0;
  std::optional<std::size_t> rival;  ///< the likeliest other
  double certainty = 1;              ///< that it is the golfer and not any other of the people
  bool both_swing = false;  ///< somebody else, as large, swings too: only luck could choose
};
Choice choose(const Sightings& sightings, const std::vector<Someone>& people,
              const std::vector<Candidate>& candidates);

/// Whether two people are ever in the same frame: then they are two for certain.
bool together(const Someone& a, const Someone& b);

/// In the order of `people`.
std::vector<Candidate> candidates_of(const Sightings& sightings, const std::vector<Someone>& people,
                                     const intake::FilmedView& view);

}  // namespace rangecheck::pose
