// SPDX-License-Identifier: MIT
// Where in a film the swing is, and when it passes each position.
#pragma once

#include <array>
#include <optional>
#include <string_view>
#include <vector>

#include "base/message.hpp"
#include "base/position.hpp"
#include "base/units.hpp"
#include "motion/smooth.hpp"

namespace rangecheck::motion {

/// A position's moment in one film, or why there is none.
struct PositionTime {
  struct Found {
    Duration time;  ///< of the film's clock
    Duration standard_uncertainty;
    bool from_club = false;  ///< from club points; else from hands and arms
  };
  std::optional<Found> found;
  Message reason, remedy;  ///< when not found
};

/// The film's real swing.
struct Swing {
  std::array<PositionTime, position_count> positions;
  /// What else moved and was left alone: waggles, practice swings, a second swing.
  std::vector<Message> notes;

  const PositionTime& operator[](Position position) const { return positions[index_of(position)]; }
  PositionTime& operator[](Position position) { return positions[index_of(position)]; }
};

/// Finds the swing. `kind` is the manifest's word (full, pitch, chip, bunker, putt): short swings
/// have only the positions that they reach, and the others say so. Nothing when the film shows no
/// swing at all: somebody who stands still, walks or reaches up is no golfer swinging; nor is a
/// putt seen from behind, which goes along the line of sight. Times rise strictly from position to
/// position.
std::optional<Swing> find_swing(const SmoothTrack& track, intake::View view, std::string_view kind);

}  // namespace rangecheck::motion
