// SPDX-License-Identifier: MIT
// A person is a list of points that are objects:
//   {"score": 0.9, "keypoints": [{"x": 310.5, "y": 88.1, "score": 0.97, "name": "left_eye"}, …],
//    "keypoints3D": [{"x": 0.02, "y": -0.61, "z": -0.3, …}, …], "id": 1}
// by name under `name`, `part` or `class`, or in the order of 17 or 33 points; the place directly
// or under `position`, which one estimator gives in fractions a second time. A frame is a list of
// people, bare or under `poses`, `body` or `predictions`; one estimator's helper library wraps each
// into {"pose": …, "skeleton": …}.
//
// 3D points are in metres about the mid-hip: x right, y down, z away from the camera.
#include <array>

#include "intake/dialects/forms.hpp"
#include "intake/dialects/frames.hpp"
#include "intake/point_list.hpp"

namespace rangecheck::intake {
namespace {

constexpr std::array<std::string_view, 6> people_keys = {"poses",   "body",   "predictions",
                                                         "persons", "people", "detections"};
constexpr std::array<std::string_view, 2> space_keys = {"keypoints3D", "keypoints_3d"};

/// Whom the points belong to: the person, or what is under `pose` in him.
Value owner_of(Value person) {
  const auto pose = person.find("pose");
  return pose && pose->is_object() ? *pose : person;
}

bool is_person(Value entry) {
  const auto points = owner_of(entry).find("keypoints");
  if (!points || !points->is_list()) return false;
  const auto first = first_filled(*points);
  return first && first->is_object() && is_point(*first);
}

bool is_frame(Value entry) { return holds_people(entry, is_person, people_keys); }

constexpr FrameShape shape = {is_frame, is_person};

bool recognises(Value document) { return holds_frames(document, shape); }

bool has_names(Value points) {
  const auto first = first_filled(points);
  if (!first) return false;
  for (const std::string_view key : {"name", "part", "class"}) {
    const auto name = first->find(key);
    if (name && name->text()) return true;
  }
  return false;
}

std::vector<RawPoint> read_points(Value points, const Spot& where, Names& names) {
  if (points.is_empty()) return {};
  if (has_names(points)) return read_named(points, Parts::xyz, where, names);
  return read_list(points, Parts::xyz, where);
}

RawPerson read_person(Value person, const Spot& where, Names& names) {
  RawPerson one;
  const Value owner = owner_of(person);
  if (const auto points = owner.find("keypoints")) {
    one.body = read_points(*points, where.at("keypoints"), names);
  }
  if (const auto key = first_key(owner, space_keys)) {
    one.space = read_points(*owner.find(*key), where.at(*key), names);
  }
  // Beside `boxRaw`, the number is only the person's place in the list.
  if (!owner.has("boxRaw")) one.track = track_of(owner);
  return one;
}

RawFilm read(Value document, const Spot& where) {
  RawFilm film;
  film.form = "lists of point objects";
  film.layouts = {"coco-17", "points-33"};
  Names names;
  const auto frame = [&](Value entry, const Spot& here, RawFrame& into) {
    const auto person = [&](Value value, const Spot& spot) {
      return read_person(value, spot, names);
    };
    read_people(entry, here, is_person, people_keys, person, into);
  };
  read_frames(document, where, shape, frame, film);
  film.names = names.all();
  return film;
}

}  // namespace

const Form keypoint_objects = {
    "keypoint-objects",
    "people as lists of point objects: [{keypoints: [{x, y, score, name}], keypoints3D}] a frame, "
    "or {part, position: {x, y}} in place of name and x, y",
    recognises, read};

}  // namespace rangecheck::intake
