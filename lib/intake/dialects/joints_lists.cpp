// SPDX-License-Identifier: MIT
// One array for all pictures, one entry for each person in each picture:
//   [{"image": "005808361.jpg", "joints": [[x, y], …], "joints_vis": [1, 0, …], "center": [x, y],
//     "scale": 4.7}, …]
// A point that isn't there has 0 in joints_vis, and -1, -1 or 0, 0 for its place.
#include <string>

#include "intake/dialects/forms.hpp"
#include "intake/natural_order.hpp"
#include "intake/point_list.hpp"

namespace rangecheck::intake {
namespace {

bool is_entry(Value value) { return value.has("image") && value.has("joints"); }

bool recognises(Value document) {
  const auto first = document.front();
  return first && is_entry(*first);
}

RawPerson person_of(Value entry, const Spot& where) {
  RawPerson person;
  const auto joints = entry.find("joints");
  if (!joints || joints->is_empty()) return person;
  person.body = read_list(*joints, Parts::xy, where.at("joints"));
  const auto marks = entry.find("joints_vis");
  if (!marks) return person;
  std::size_t i = 0;
  for (const Value mark : marks->list()) {
    if (i == person.body.size()) break;
    const auto number = number_or_null(mark, where.at("joints_vis"));
    person.body[i++].score = number.value_or(RawPoint::none);
  }
  return person;
}

RawFilm read(Value document, const Spot& where) {
  RawFilm film;
  film.form = "joints by picture";
  film.layouts = {"mpii-16"};
  film.score = Score::label;
  std::vector<std::string> names;
  std::size_t i = 0;
  for (const Value entry : document.list()) {
    const Spot here = where.at(i++);
    const auto image = entry.find("image");
    const auto name = image ? image->text() : std::nullopt;
    if (!name) refuse(here, Fault::bad_value, "should be an object with an image's name");
    // The people of a picture follow each other.
    if (names.empty() || names.back() != *name) {
      names.emplace_back(*name);
      film.add(RawFrame{}, here);
    }
    const std::size_t frame = film.frames.size() - 1;
    film.add(person_of(entry, here.in_frame(frame)), frame, here);
  }
  const auto numbers = frame_numbers(names);
  for (std::size_t k = 0; k < numbers.size(); ++k) film.frames[k].number = numbers[k];
  return film;
}

}  // namespace

const Form joints_lists = {
    "joints-lists", "an array of {image, joints: [[x, y], …], joints_vis}, one entry a person",
    recognises, read};

}  // namespace rangecheck::intake
