// SPDX-License-Identifier: MIT
// A column for each point, an entry a frame:
//   {"width": 1080, "height": 1920, "fps": 60, "frames": 472,
//    "landmarks": {"LEFT_HIP": [{"x": …, "y": …, "z": …, "visibility": …}, …], …}}
// `frames` is a number here. One person; an entry is null where nobody was found.
#include <functional>

#include "intake/dialects/forms.hpp"
#include "intake/dialects/header.hpp"
#include "intake/dialects/marks_33.hpp"
#include "intake/layout.hpp"
#include "intake/point_list.hpp"

namespace rangecheck::intake {
namespace {

bool is_column(Value value) {
  for (const Value point : value.list()) {
    if (point.kind() != Kind::null) return is_point(point);
  }
  return false;
}

bool recognises(Value document) {
  const auto columns = document.find("landmarks");
  if (!columns || !columns->is_object()) return false;
  for (const auto [name, column] : columns->members()) {
    if (joint_named(name) && is_column(column)) return true;
  }
  return false;
}

/// The frames grow with the first column, and the others have to be as long.
void read_column(Value column, std::size_t index, const Spot& where, RawFilm& film) {
  if (!column.is_list()) {
    refuse(where, Fault::bad_value, "should be a list of points, is " + kind_of(column));
  }
  check_frame_count(column.size(), where);
  if (film.frames.empty()) film.frames.resize(column.size());
  if (film.frames.size() != column.size()) {
    refuse(where, Fault::bad_value,
           "has " + std::to_string(column.size()) + " points, other columns have " +
               std::to_string(film.frames.size()));
  }
  std::size_t i = 0;
  for (const Value point : column.list()) {
    RawFrame& frame = film.frames[i];
    frame.number = i;
    frame.people.resize(1);
    auto& body = frame.people.front().body;
    body.resize(index + 1);
    body[index] = read_point(point, Parts::xyzc, where.at(i));
    ++i;
  }
}

bool is_seen(const RawPerson& person) {
  for (const RawPoint& point : person.body) {
    if (point.x == point.x) return true;  // not NaN
  }
  return false;
}

RawFilm read(Value document, const Spot& where) {
  RawFilm film;
  film.form = "a column for each point";
  film.score = Score::visibility;
  Names names;
  const Spot list = where.at("landmarks");
  for (const auto [name, column] : document.find("landmarks")->members()) {
    const Spot here = list.at(name);
    read_column(column, names.index_of(name, here), here, film);
    check_point_count(film.points_added += column.size(), here);
    if (is_name_of_33(name)) film.estimator = Estimator::points_33;
  }
  film.names = names.all();
  for (auto& frame : film.frames) std::erase_if(frame.people, std::not_fn(is_seen));
  read_header(document, film);
  check_scale_of_33(film, where);
  return film;
}

}  // namespace

const Form landmark_columns = {
    "landmark-columns",
    "a column for each point: {width, height, fps, frames: 472, landmarks: {LEFT_HIP: [{x, y, z, "
    "visibility}, …], …}}",
    recognises, read};

}  // namespace rangecheck::intake
