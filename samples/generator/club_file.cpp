// SPDX-License-Identifier: MIT
#include "generator/club_file.hpp"

#include <algorithm>

#include "generator/detector_parts.hpp"
#include "generator/written.hpp"

namespace rangecheck::samples {
namespace {

Json point(const Film& film, const Detected& at) {
  return {rounded(shot_x_px(film, at.at_px.x()), 1), rounded(at.at_px.y(), 1),
          rounded(at.confidence, 3)};
}

/// At a place in the picture, in shares of it.
Json there(const Film& film, double x, double y) {
  return {rounded(x * film.width_px, 1), rounded(y * film.height_px, 1), 0.9};
}

std::vector<Json> things_that_lie_about(const Film& film) {
  return {{{"grip_end", there(film, 0.06, 0.50)},
           {"hosel", there(film, 0.08, 0.80)},
           {"club_toe", there(film, 0.10, 0.81)}},
          {{"ball", there(film, 0.15, 0.86)}},
          {{"ball", there(film, 0.90, 0.84)}}};
}

}  // namespace

Film without_club(Film film) {
  for (auto& people : film.frames) {
    for (auto& person : people) {
      for (const auto id : club_points) person.image[id].reset();
    }
  }
  return film;
}

std::string club_file(const Film& film) {
  Json frames = Json::array();
  for (std::size_t number = 0; number < film.frames.size(); ++number) {
    std::vector<Json> objects = things_that_lie_about(film);
    const auto& golfer = film.frames[number].front().image;
    Json club = Json::object();
    for (const auto id : club_points) {
      if (golfer[id] && id.joint != Joint::ball) club[key_of(id)] = point(film, *golfer[id]);
    }
    if (!club.empty()) objects.push_back(club);
    if (const auto& ball = golfer[centre(Joint::ball)]) {
      objects.push_back({{"ball", point(film, *ball)}});
    }
    std::rotate(objects.begin(),
                objects.begin() + static_cast<std::ptrdiff_t>(number % objects.size()),
                objects.end());
    frames.push_back({{"frame", film.number(number)}, {"objects", objects}});
  }
  return Json{{"frames", frames}}.dump() + "\n";
}

}  // namespace rangecheck::samples
