// SPDX-License-Identifier: MIT
#include "intake/picture.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace rangecheck::intake {
namespace {

constexpr std::string_view image_remedy =
    "add image: { width: …, height: … } to this view in submission.yaml";

template <class Use>
void each_person(Film& film, Use use) {
  for (auto& frame : film.frames) {
    for (auto& person : frame.people) use(person);
  }
}

/// Calls use(sighting) for every point in the picture.
template <class Use>
void each_sighting(Film& film, Use use) {
  each_person(film, [&](Person& person) {
    for (auto& point : person.image.values()) {
      if (point) use(*point);
    }
  });
}

/// What the coordinates are counted in.
enum class Scale { pixels, fractions, centred_fractions };

/// No body in pixels fits into a square of five: then these are fractions of the picture, which may
/// go some way over its edges. From −1 to 1 about the middle is another habit of some writers.
Scale scale_of(const RawFilm& raw, Film& film) {
  bool any = false;
  double least = 0, most = 0;
  each_sighting(film, [&](const Sighting& point) {
    any = true;
    least = std::min({least, point.at.x_px, point.at.y_px});
    most = std::max({most, point.at.x_px, point.at.y_px});
  });
  constexpr double no_fraction = 50;  // even of a point guessed far outside
  if (!any || raw.fractions == false || most > no_fraction) return Scale::pixels;
  if (raw.fractions == true) return Scale::fractions;
  if (least < -2 || most > 3) return Scale::pixels;
  const bool centred = film.estimator != Estimator::points_33 && least < -0.25 && most <= 1;
  return centred ? Scale::centred_fractions : Scale::fractions;
}

}  // namespace

void to_pixels(const RawFilm& raw, Film& film, const Spot& where) {
  const Scale scale = scale_of(raw, film);
  if (scale == Scale::centred_fractions) {
    refuse(where, Fault::not_a_film, "has coordinates from -1 to 1, which can't be placed for sure",
           "export them in pixels");
  }
  film.dialect += scale == Scale::pixels ? ", in pixels" : ", in fractions of the picture";
  if (scale == Scale::fractions && !film.image) {
    refuse(where, Fault::not_a_film,
           "gives points in fractions of the picture, whose size isn't known",
           std::string(image_remedy));
  }
  const ImageSize unit = scale == Scale::pixels ? ImageSize{1, 1} : *film.image;
  // Without a height, y counted up is counted from a line at the bottom all the same.
  const double bottom_px = film.image ? film.image->height_px : 0;
  each_sighting(film, [&](Sighting& point) {
    point.at.x_px *= unit.width_px;
    point.at.y_px *= unit.height_px;
    if (raw.y_up) point.at.y_px = bottom_px - point.at.y_px;
  });
}

void settle_image(Film& film, const std::optional<ImageSize>& given, const Spot& where) {
  if (!given) return;
  if (film.image &&
      (film.image->width_px != given->width_px || film.image->height_px != given->height_px)) {
    refuse(
        where.at("image"), Fault::disagreement,
        fmt::format("the film says that the picture is {} × {}, the submission says {} × {}",
                    film.image->width_px, film.image->height_px, given->width_px, given->height_px),
        "correct the one that is wrong, or leave image out of the submission");
  }
  film.image = given;
}

void turn_over(Film& film) {
  const double width = film.image ? film.image->width_px : 0;
  each_person(film, [&](Person& person) {
    Person turned;
    turned.track = person.track;
    for (std::size_t i = 0; i < landmark_count; ++i) {
      const LandmarkId id = landmark_at(i);
      auto image = person.image[mirrored(id)];
      if (image) image->at.x_px = width - image->at.x_px;
      turned.image[id] = image;
      auto space = person.space[mirrored(id)];
      if (space) space->x_m = -space->x_m;
      turned.space[id] = space;
    }
    person = std::move(turned);
  });
}

}  // namespace rangecheck::intake
