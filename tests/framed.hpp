// SPDX-License-Identifier: MIT
// Made-up films cut at one edge of the picture, as by a camera that was aimed badly.
#pragma once

#include <algorithm>
#include <cmath>

#include "drawn_film.hpp"
#include "generator/drawn.hpp"

namespace rangecheck::test {

/// What an estimator makes of points that are not in the picture.
enum class Beyond { guessed, left_out, put_on_the_edge };
inline constexpr Beyond all_beyond[] = {Beyond::guessed, Beyond::left_out, Beyond::put_on_the_edge};

/// The golfer's true extent in the picture of a film of the address, pixels.
struct TrueExtent {
  double top_px, sole_px;
  double height_px() const { return sole_px - top_px; }
};

inline TrueExtent extent_of(const samples::FilmedTruth& film) {
  TrueExtent out{film.camera.project(*film.points[centre(Joint::head_top)]).y(), -1e9};
  for (const Joint joint : {Joint::heel, Joint::big_toe, Joint::small_toe})
    for (const Side side : {Side::lead, Side::trail}) {
      Eigen::Vector3d sole = *film.points[{side, joint}];
      sole.y() = 0;
      out.sole_px = std::max(out.sole_px, film.camera.project(sole).y());
    }
  return out;
}

/// What of a film is left when its picture ends at these heights (pixels of the whole picture),
/// with room to spare at the sides.
inline intake::FilmedView framed(const samples::FilmedTruth& film, double top_px, double bottom_px,
                                 Beyond beyond) {
  intake::FilmedView out;
  out.view = view_of(film.view);
  const double width = film.camera.width_px, height = bottom_px - top_px;
  out.film.image = intake::ImageSize{3 * width, height};
  for (const auto& frame : film.frames) {
    auto person = person_of(frame);
    for (auto& point : person.image.values()) {
      if (!point) continue;
      point->at.x_px += width;
      point->at.y_px -= top_px;
      if (point->at.y_px >= 0 && point->at.y_px < height) continue;
      if (beyond == Beyond::left_out) point.reset();
      if (beyond == Beyond::put_on_the_edge)
        point->at.y_px = std::clamp(point->at.y_px, 0.0, height - 1);
    }
    out.film.frames.push_back({out.film.frames.size(), std::nullopt, {person}});
  }
  return out;
}

}  // namespace rangecheck::test
