// SPDX-License-Identifier: MIT
// What the films show of the swing after address. Inside inbox only.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "base/message.hpp"
#include "grade/grade.hpp"
#include "inbox/filmed.hpp"
#include "measure/measurement.hpp"
#include "posture/position.hpp"
#include "report/report.hpp"

namespace rangecheck::inbox {

/// The films' swings on one footing.
struct Swings {
  std::vector<std::optional<motion::Swing>> of_film;  ///< in the order of the films
  bool one_swing = false;                             ///< two cameras filmed one swing
  std::vector<Message> notes;
};

/// `said_same` is the manifest's word; the films' own times may speak against it.
Swings lay_side_by_side(std::span<const Filmed> films, bool said_same);

struct SwingSeen {
  std::vector<measure::Measurement> measured;  ///< position by position, then of the whole swing
  std::vector<report::PositionSeen> positions;
  std::vector<grade::PositionNotFound> not_found;
};

/// Estimates the body at each position that a film shows and measures there; then the times.
/// `films` are in the order of the address evidence's views.
SwingSeen see_swing(std::span<const Filmed> films, const Swings& swings,
                    const posture::Carried& carried, std::span<const measure::Rule* const> own);

}  // namespace rangecheck::inbox
