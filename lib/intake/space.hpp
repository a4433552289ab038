// SPDX-License-Identifier: MIT
// Points in space: into camera axes, and a picture for films that have nothing else.
#pragma once

#include "intake/film.hpp"
#include "intake/raw_film.hpp"

namespace rangecheck::intake {

/// Takes the points in space of `film` from `space`'s unit and axes to metres in camera axes. From
/// world axes that is: turned about gravity so that the person seen first looks at the camera, as
/// in a film from in front. Without a known unit they are made the size of a grown person.
void to_camera_axes(const RawSpace& space, Film& film);

/// Draws the points in the picture from those in space (camera axes): as a camera at the origin
/// sees them, or 4 m away from who has no place before it. Sets the picture's size.
void draw_picture(Film& film);

}  // namespace rangecheck::intake
