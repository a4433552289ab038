// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "intake/layout.hpp"

namespace rangecheck::intake {

/// The anatomical names of all landmarks in order of index: "left_knee", "nose". The left side is
/// the lead of a right-handed golfer.
const std::vector<std::string>& point_names();

/// The landmark of exactly this name, or nothing.
LayoutPoint point_called(std::string_view name);

/// "did you mean left_knee?", or "" when no name is near.
std::string did_you_mean(std::string_view name);

/// True for a name with a word that no human body has: "tail_base", "left_front_paw".
bool names_an_animal(std::string_view name);

}  // namespace rangecheck::intake
