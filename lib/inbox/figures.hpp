// SPDX-License-Identifier: MIT
// The golfer as filmed, for pictures. Inside inbox only.
#pragma once

#include <span>
#include <vector>

#include "inbox/filmed.hpp"
#include "inbox/swing_seen.hpp"
#include "report/report.hpp"

namespace rangecheck::inbox {

/// The golfer of each film at address and at every position that it shows: the very points that are
/// measured, turned back to the picture as filmed where a left-hander's was mirrored at intake.
/// None of a film that holds points in space only.
std::vector<report::Figure> figures_of(std::span<const Filmed> films, const Swings& swings,
                                       bool left_handed);

}  // namespace rangecheck::inbox
