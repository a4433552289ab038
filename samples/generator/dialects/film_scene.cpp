// SPDX-License-Identifier: MIT
#include "generator/dialects/film_scene.hpp"

#include <algorithm>
#include <stdexcept>

namespace rangecheck::samples {
namespace {

ScenePoint point_of(const DetectedFrame& person, LandmarkId id) {
  ScenePoint point{Eigen::Vector2d::Zero(), Eigen::Vector3d::Zero(), 0};
  if (const auto& at = person.image[id]) {
    point.at_px = at->at_px;
    point.confidence = at->confidence;
  }
  if (const auto& at = person.space[id]) {
    point.at_m = at->at_m;
    point.confidence = at->confidence;
  }
  return point;
}

ScenePerson person_of(const DetectedFrame& detected, std::size_t listed_as) {
  ScenePerson person{static_cast<int>(listed_as), {}};
  for (std::size_t i = 0; i < landmark_count; ++i)
    person.points.values()[i] = point_of(detected, landmark_at(i));
  const auto &one = *person.points[lead(Joint::hip)], &other = *person.points[trail(Joint::hip)];
  person.points[centre(Joint::pelvis)] = {(one.at_px + other.at_px) / 2,
                                          (one.at_m + other.at_m) / 2,
                                          std::min(one.confidence, other.confidence)};
  return person;
}

}  // namespace

Scene scene_of(const Film& film) {
  if (film.hand != Hand::right) throw std::runtime_error("only films of right-handers");
  Scene scene{film.width_px, film.height_px, film.frame_rate_hz, {}};
  for (std::size_t i = 0; i < film.frames.size(); ++i) {
    SceneFrame frame{film.number(i), double(film.number(i)) / film.frame_rate_hz, {}};
    for (const auto& person : film.frames[i])
      frame.people.push_back(person_of(person, frame.people.size()));
    scene.frames.push_back(std::move(frame));
  }
  return scene;
}

}  // namespace rangecheck::samples
