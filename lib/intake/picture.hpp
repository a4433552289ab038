// SPDX-License-Identifier: MIT
// Points in the picture as they are counted in the file, into pixels from the upper left corner.
#pragma once

#include "intake/film.hpp"
#include "intake/raw_film.hpp"
#include "intake/spot.hpp"

namespace rangecheck::intake {

/// Refuses a picture size of the submission that differs from the film's own.
void settle_image(Film& film, const std::optional<ImageSize>& given, const Spot& where);

/// Throws Refusal: fractions of a picture whose size isn't known, coordinates from −1 to 1. Adds to
/// Film::dialect what the points were counted in.
void to_pixels(const RawFilm& raw, Film& film, const Spot& where);

/// Turns a left-hander's film over: x counted from the other edge, left and right exchanged.
void turn_over(Film& film);

}  // namespace rangecheck::intake
