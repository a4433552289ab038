// SPDX-License-Identifier: MIT
// One document a frame (or an array of such):
//   {"version": 1.3, "people": [{"pose_keypoints_2d": [x, y, c, …], "hand_left_keypoints_2d":
//   […]}]}
// with any of several point sets, as many writers borrow the wrapper. Missing points are 0, 0, 0. A
// person that was looked for and not found may be {} or full of NaN. `person_id` is no identity.
#include "intake/dialects/forms.hpp"
#include "intake/point_list.hpp"

namespace rangecheck::intake {
namespace {

bool is_frame(Value value) {
  const auto people = value.find("people");
  return people && (people->is_list() || people->kind() == Kind::null);
}

bool recognises(Value document) {
  const auto first = document.front();
  return first ? is_frame(*first) : is_frame(document);
}

std::vector<RawPoint> hand_of(Value person, std::string_view key, const Spot& where) {
  const auto values = person.find(key);
  constexpr std::size_t numbers_of_hand = 63;
  if (!values || !values->is_list() || values->size() != numbers_of_hand) return {};
  return read_flat(*values, Parts::xyc, where.at(key));
}

RawPerson person_of(Value value, const Spot& where) {
  RawPerson person;
  if (value.is_empty()) return person;
  if (!value.is_object()) {
    refuse(where, Fault::bad_value, "should be an object, is " + kind_of(value));
  }
  constexpr std::string_view key = "pose_keypoints_2d";
  const auto body = value.find(key);
  if (body && !body->is_empty()) person.body = read_flat(*body, Parts::xyc, where.at(key));
  person.left_hand = hand_of(value, "hand_left_keypoints_2d", where);
  person.right_hand = hand_of(value, "hand_right_keypoints_2d", where);
  return person;
}

RawFrame frame_of(Value value, const Spot& where, std::size_t number) {
  RawFrame frame;
  frame.number = number;
  if (!is_frame(value)) {
    refuse(where, Fault::bad_value, "should be an object with people, is " + kind_of(value));
  }
  const Spot list = where.at("people");
  std::size_t i = 0;
  for (const Value each : value.find("people")->list()) {
    frame.people.push_back(person_of(each, list.at(i++)));
  }
  return frame;
}

RawFilm read(Value document, const Spot& where) {
  RawFilm film;
  film.form = "one list of people a frame";
  film.layouts = {"body-25",   "body-25b", "coco-25",       "openpose-18",
                  "mpi-15",    "coco-17",  "halpe-26",      "coco-wholebody-133",
                  "halpe-136", "body-135", "wholebody-134", "body-19"};
  if (document.is_object()) {
    film.frames.push_back(frame_of(document, where.in_frame(0), 0));
    return film;
  }
  for (const Value each : document.list()) {
    const std::size_t i = film.frames.size();
    const Spot here = where.at(i);
    film.frames.push_back(frame_of(each, here.in_frame(i), i));
  }
  return film;
}

}  // namespace

const Form people_per_frame = {"people-per-frame",
                               "one file a frame: {people: [{pose_keypoints_2d: [x, y, c, …]}]}",
                               recognises, read};

}  // namespace rangecheck::intake
