// SPDX-License-Identifier: MIT
// A golfer at address as seen from the front, drawn from proportions: lead is on the right of the
// picture, hands hang below the hips, toes lie lower in the picture than heels.
#pragma once

#include <utility>
#include <vector>

#include "close.hpp"
#include "pose/golfer.hpp"

namespace rangecheck::test {

struct Placed {
  double x_px = 500;
  double feet_px = 1500;
  double height_px = 700;
};

/// A joint's place: lead side's distance from the middle and height over the toes, over stature.
struct Proportion {
  Joint joint;
  double aside, up;
};

inline constexpr Proportion proportions[] = {
    {Joint::nose, 0, 0.95},       {Joint::ear, 0.04, 0.97},   {Joint::shoulder, 0.13, 0.82},
    {Joint::elbow, 0.11, 0.64},   {Joint::wrist, 0.03, 0.48}, {Joint::hip, 0.08, 0.52},
    {Joint::knee, 0.12, 0.28},    {Joint::ankle, 0.14, 0.06}, {Joint::heel, 0.14, 0.03},
    {Joint::big_toe, 0.16, 0.00},
};

inline void put(intake::Person& person, LandmarkId id, Placed placed, double aside, double up) {
  person.image[id] = intake::Sighting{
      {placed.x_px + aside * placed.height_px, placed.feet_px - up * placed.height_px}, 0.9};
  person.space[id] = intake::SpatialSighting{1.7 * aside, -1.7 * up, 0, 0.9};
}

inline intake::Person figure(Placed placed = {}) {
  intake::Person person;
  for (const auto& [joint, aside, up] : proportions) {
    if (!is_paired(joint)) {
      put(person, centre(joint), placed, aside, up);
      continue;
    }
    put(person, lead(joint), placed, aside, up);
    put(person, trail(joint), placed, -aside, up);
  }
  return person;
}

/// As an estimator gives it that takes the front for the back.
inline intake::Person with_sides_swapped(intake::Person person) {
  for (const auto& [joint, aside, up] : proportions) {
    if (!is_paired(joint)) continue;
    std::swap(person.image[lead(joint)], person.image[trail(joint)]);
    std::swap(person.space[lead(joint)], person.space[trail(joint)]);
  }
  return person;
}

/// Head down, as a reflection on the floor; where the figure was, it stays.
inline intake::Person upside_down(intake::Person person, Placed placed = {}) {
  for (auto& point : person.image.values()) {
    if (point) point->at.y_px = 2 * placed.feet_px - placed.height_px - point->at.y_px;
  }
  return person;
}

using People = std::vector<intake::Person>;

inline intake::FilmedView film_of(const std::vector<People>& frames,
                                  intake::View view = intake::View::face_on) {
  intake::FilmedView out;
  out.view = view;
  out.film.image = intake::ImageSize{1080, 1920};
  for (const People& people : frames) {
    out.film.frames.push_back({out.film.frames.size(), std::nullopt, people});
  }
  return out;
}

inline double x_of(const pose::TrackFrame& frame, LandmarkId id) {
  REQUIRE(frame.person);
  REQUIRE(frame.person->image.has(id));
  return frame.person->image[id]->at.x_px;
}

}  // namespace rangecheck::test
