// SPDX-License-Identifier: MIT
#pragma once

#include "intake/raw_film.hpp"

namespace rangecheck::intake {

/// For a film that was read from a bare list of persons, each put into a frame of his own: puts
/// them into one frame when they are one picture's people. More than a dozen are a film; so is
/// anybody who from entry to entry hardly leaves his place, and whoever has numbers or times.
void settle_lone_people(RawFilm& film);

/// Puts everybody into one frame: where a bare list of persons is one of many files.
void put_in_one_picture(RawFilm& film);

}  // namespace rangecheck::intake
