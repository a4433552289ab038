// SPDX-License-Identifier: MIT
// One film on its way to a posture. Inside inbox only.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "base/message.hpp"
#include "base/result.hpp"
#include "intake/submission.hpp"
#include "motion/film_facts.hpp"
#include "motion/space_track.hpp"
#include "posture/address.hpp"

namespace rangecheck::inbox {

struct Filmed {
  posture::ViewEvidence address;
  motion::FilmMotion motion;
  motion::FilmFacts facts;
  std::optional<motion::SpaceTrack> space;  ///< where posture::space_counts
  std::vector<Message> notes;               ///< for the report, each naming the film

  /// Number, as the landmark file counts, of the frame nearest to `time` of the film's clock.
  std::size_t frame_at(Duration time) const;
  std::vector<std::size_t> frame_numbers;
};

/// What the film gives to the estimate of the address.
posture::ViewEvidence evidence_of(const intake::FilmedView& view, const motion::Still& still);

/// Follows the golfer through the film and finds address and swing. Errors name the film where they
/// name nothing better.
Result<Filmed> read_film(const intake::FilmedView& view, std::string_view swing);

}  // namespace rangecheck::inbox
