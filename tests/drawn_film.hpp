// SPDX-License-Identifier: MIT
// Made-up films as intake would give them.
#pragma once

#include "generator/swing.hpp"
#include "intake/submission.hpp"

namespace rangecheck::test {

inline intake::View view_of(samples::View view) {
  return view == samples::View::face_on ? intake::View::face_on : intake::View::down_the_line;
}

inline intake::Person person_of(const samples::DetectedFrame& frame) {
  intake::Person person;
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const LandmarkId id = landmark_at(i);
    if (const auto& point = frame.image[id]) {
      person.image[id] = intake::Sighting{{point->at_px.x(), point->at_px.y()}, point->confidence};
    }
    if (const auto& point = frame.space[id]) {
      person.space[id] = intake::SpatialSighting{point->at_m.x(), point->at_m.y(), point->at_m.z(),
                                                 point->confidence};
    }
  }
  return person;
}

/// With stamps.
inline intake::FilmedView film_of(const samples::FilmedSwing& swing) {
  intake::FilmedView out;
  out.view = view_of(swing.view);
  out.film.image = intake::ImageSize{static_cast<double>(swing.camera.width_px),
                                     static_cast<double>(swing.camera.height_px)};
  for (std::size_t i = 0; i < swing.frames.size(); ++i) {
    out.film.frames.push_back(
        {swing.number[i], Duration::seconds(swing.time_s[i]), {person_of(swing.frames[i])}});
  }
  return out;
}

}  // namespace rangecheck::test
