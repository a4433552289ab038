// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>

#include "intake/raw_film.hpp"
#include "intake/spot.hpp"

namespace rangecheck::intake {

/// True for the tip of a foot as only these 33 points are named: "LEFT_FOOT_INDEX",
/// "rightFootIndex".
bool is_name_of_33(std::string_view name);

/// Refuses 33 points that somebody has multiplied (by 100, by −100) or moved for some drawing
/// program: they are neither pixels nor fractions of the picture nor metres, and nothing tells what
/// else.
void check_scale_of_33(const RawFilm& film, const Spot& where);

}  // namespace rangecheck::intake
