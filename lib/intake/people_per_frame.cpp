// SPDX-License-Identifier: MIT
// One document a frame (or an array of such):
//   {"version": 1.3, "people": [{"pose_keypoints_2d": [x, y, c, …], "hand_left_keypoints_2d":
//   […]}]}
// with 25 points, or 17 from writers that borrow the wrapper. Missing points are 0, 0, 0. A person
// that was looked for and not found may be {} or full of NaN. `person_id` is no identity.
#include "intake/dialect.hpp"
#include "intake/points.hpp"

namespace rangecheck::intake {
namespace {

bool is_frame(const Json& value) {
  const Json* people = member(value, "people");
  return people != nullptr && (people->is_array() || people->is_null());
}

bool recognises(const Json& document) {
  if (document.is_array()) return !document.empty() && is_frame(document.front());
  return is_frame(document);
}

void read_body(const Json& values, const Spot& where, Person& person) {
  if (!values.is_array()) {
    refuse(where, Fault::bad_value, "should be an array of numbers, is " + kind_of(values));
  }
  if (values.size() == 3 * body_25.size()) return read_triples(values, body_25, where, person);
  if (values.size() == 3 * coco_17.size()) return read_triples(values, coco_17, where, person);
  refuse(where, Fault::not_a_film,
         "has " + std::to_string(values.size()) +
             " numbers; in this form 75 (25 points with x, y, confidence) and 51 (17 points) are "
             "understood",
         "export the 25-point set, or write the plain form that README shows");
}

void read_hand(const Json& person_value, std::string_view key, Side side, const Spot& where,
               Person& person) {
  const Json* values = member(person_value, key);
  if (values == nullptr || !values->is_array() || values->size() != 3 * hand_point_count) return;
  std::array<LayoutPoint, hand_point_count> layout;
  for (std::size_t i = 0; i < layout.size(); ++i) layout[i] = hand_point(i, side);
  read_triples(*values, layout, where.at(key), person);
}

Person person_of(const Json& value, const Spot& where) {
  Person person;
  if (is_empty(value)) return person;
  if (!value.is_object()) {
    refuse(where, Fault::bad_value, "should be an object, is " + kind_of(value));
  }
  const Json* body = member(value, "pose_keypoints_2d");
  if (body != nullptr && !is_empty(*body)) {
    read_body(*body, where.at("pose_keypoints_2d"), person);
  }
  read_hand(value, "hand_left_keypoints_2d", Side::lead, where, person);
  read_hand(value, "hand_right_keypoints_2d", Side::trail, where, person);
  return person;
}

Frame frame_of(const Json& value, const Spot& where, std::size_t number) {
  Frame frame;
  frame.number = number;
  if (!is_frame(value)) {
    refuse(where, Fault::bad_value, "should be an object with people, is " + kind_of(value));
  }
  const Json& people = value["people"];
  for (std::size_t i = 0; i < people.size(); ++i) {
    const Spot list = where.at("people");
    Person person = person_of(people[i], list.at(i));
    if (has_points(person)) frame.people.push_back(std::move(person));
  }
  return frame;
}

Film read(const Json& document, const Spot& where) {
  Film film;
  film.dialect = "one list of people a frame";
  if (document.is_object()) {
    film.frames.push_back(frame_of(document, where.in_frame(0), 0));
    return film;
  }
  for (std::size_t i = 0; i < document.size(); ++i) {
    const Spot here = where.at(i);
    film.frames.push_back(frame_of(document[i], here.in_frame(i), i));
  }
  return film;
}

}  // namespace

const Dialect people_per_frame = {
    "one file a frame: {people: [{pose_keypoints_2d: [x, y, c, …]}]} with 25 or 17 points",
    recognises, read};

}  // namespace rangecheck::intake
