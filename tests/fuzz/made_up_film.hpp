// SPDX-License-Identifier: MIT
#pragma once

#include "intake/film.hpp"

namespace rangecheck::fuzz {

/// Ten frames at 30 Hz of someone whose wrists and feet are seen, in a picture of 1080 by 1920.
inline intake::Film made_up_film() {
  intake::Film film;
  film.image = intake::ImageSize{1080, 1920};
  film.frame_rate_hz = 30;
  constexpr std::size_t frames = 10;
  for (std::size_t i = 0; i < frames; ++i) {
    intake::Person person;
    const auto put = [&](LandmarkId id, double x_px, double y_px) {
      person.image[id] = intake::Sighting{{x_px, y_px}, 0.9};
    };
    put(lead(Joint::wrist), 530, 1000 + 10.0 * double(i));
    put(trail(Joint::wrist), 520, 1010 + 10.0 * double(i));
    put(lead(Joint::ankle), 600, 1700);
    put(trail(Joint::ankle), 420, 1700);
    intake::Frame frame;
    frame.number = i;
    frame.people.push_back(person);
    film.frames.push_back(std::move(frame));
  }
  return film;
}

}  // namespace rangecheck::fuzz
