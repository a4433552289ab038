// SPDX-License-Identifier: MIT
// A person's points as three lists, one for each coordinate:
//   {"name": "person", "class": 0, "confidence": 0.9, "box": {…}, "track_id": 2,
//    "keypoints": {"x": [17 numbers], "y": [17], "visible": [17]}}
// A frame is a list of people. `visible` is the confidence. Coordinates are pixels or, at the
// user's wish, fractions; only the numbers tell.
#include <array>

#include "intake/dialects/forms.hpp"
#include "intake/dialects/frames.hpp"

namespace rangecheck::intake {
namespace {

constexpr std::array<std::string_view, 4> people_keys = {"predictions", "detections", "people",
                                                         "results"};
constexpr std::array<std::string_view, 3> score_keys = {"visible", "confidence", "score"};

bool is_person(Value entry) {
  const auto points = entry.find("keypoints");
  if (!points || !points->is_object()) return false;
  const auto x = points->find("x"), y = points->find("y");
  return x && y && x->is_list() && y->is_list();
}

bool is_frame(Value entry) { return holds_people(entry, is_person, people_keys); }

constexpr FrameShape shape = {is_frame, is_person};

bool recognises(Value document) { return holds_frames(document, shape); }

/// Fills one part of each point from its list.
void read_column(Value points, std::string_view key, double RawPoint::*part, const Spot& where,
                 std::vector<RawPoint>& body) {
  const auto column = points.find(key);
  const Spot here = where.at(key);
  if (!column || !column->is_list()) {
    refuse(here, Fault::bad_value,
           column ? "should be a list of numbers, is " + kind_of(*column) : "is not there");
  }
  if (body.empty()) body.resize(column->size());
  if (column->size() != body.size()) {
    refuse(here, Fault::bad_value,
           "has " + std::to_string(column->size()) + " numbers where the lists beside it have " +
               std::to_string(body.size()));
  }
  std::size_t i = 0;
  for (const Value number : column->list()) {
    body[i].*part = number_or_null(number, here.at(i)).value_or(RawPoint::none);
    ++i;
  }
}

RawPerson read_person(Value person, const Spot& where) {
  RawPerson one;
  const auto points = person.find("keypoints");
  if (!points || points->is_empty()) return one;
  const Spot here = where.at("keypoints");
  read_column(*points, "x", &RawPoint::x, here, one.body);
  read_column(*points, "y", &RawPoint::y, here, one.body);
  if (const auto key = first_key(*points, score_keys)) {
    read_column(*points, *key, &RawPoint::score, here, one.body);
  }
  one.track = track_of(person);
  return one;
}

RawFilm read(Value document, const Spot& where) {
  RawFilm film;
  film.form = "lists of x, of y and of confidence a person";
  film.layouts = {"coco-17"};
  const auto frame = [](Value entry, const Spot& here, RawFrame& into) {
    read_people(entry, here, is_person, people_keys, read_person, into);
  };
  read_frames(document, where, shape, frame, film);
  return film;
}

}  // namespace

const Form columns_of_points = {
    "columns-of-points",
    "people with a list for each coordinate: [{keypoints: {x: […], y: […], visible: […]}}] a frame",
    recognises, read};

}  // namespace rangecheck::intake
