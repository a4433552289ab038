// SPDX-License-Identifier: MIT
// One document a frame, or a list of such, or an object of such by the pictures' names:
//   {"version": 1.3, "people": [{"pose_keypoints_2d": [x, y, c, …], "hand_left_keypoints_2d": […],
//    "pose_keypoints_3d": [x, y, z, c, …]}], "canvas_width": 512, "canvas_height": 768}
//   {"version": 0.1, "bodies": [{"joints": [x, y, c, …]}]}
// with any of several point sets, as many writers borrow the wrapper. Missing points are 0, 0, 0. A
// person that was looked for and not found may be {} or full of NaN. `version` is a number or a
// text, and `person_id` no identity.
#include <algorithm>
#include <array>
#include <span>

#include "intake/dialects/forms.hpp"
#include "intake/dialects/frames.hpp"
#include "intake/dialects/header.hpp"
#include "intake/natural_order.hpp"
#include "intake/point_list.hpp"

namespace rangecheck::intake {
namespace {

constexpr std::size_t count_of_hand = 21;

constexpr std::array<std::string_view, 3> body_keys = {"pose_keypoints_2d", "pose_keypoints",
                                                       "joints"};
constexpr std::array<std::string_view, 2> left_hand_keys = {"hand_left_keypoints_2d",
                                                            "hand_left_keypoints"};
constexpr std::array<std::string_view, 2> right_hand_keys = {"hand_right_keypoints_2d",
                                                             "hand_right_keypoints"};
constexpr std::string_view space_key = "pose_keypoints_3d";

/// True for a person of this form, and for one who was not found.
bool is_person(Value value) {
  if (value.is_empty()) return true;
  return first_key(value, body_keys) || first_key(value, left_hand_keys) || value.has(space_key);
}

/// The key of the list of people; nothing when this is no frame.
std::optional<std::string_view> people_key(Value value) {
  for (const std::string_view key : {"people", "bodies"}) {
    const auto people = value.find(key);
    if (!people || !(people->is_list() || people->kind() == Kind::null)) continue;
    const auto somebody = first_filled(*people);
    if (!somebody || is_person(*somebody)) return key;
  }
  return std::nullopt;
}

bool is_frame(Value value) { return people_key(value).has_value(); }

/// True for {"0.jpg": frame, …}.
bool is_by_name(Value document) {
  if (!document.is_object() || is_frame(document)) return false;
  for (const auto [key, value] : document.members()) {
    if (!value.is_empty()) return is_frame(value);
  }
  return false;
}

bool recognises(Value document) {
  if (document.is_object()) return is_frame(document) || is_by_name(document);
  const auto first = first_filled(document);
  return first && is_frame(*first);
}

/// The list under the first of `keys` that holds one.
std::vector<RawPoint> list_under(Value person, std::span<const std::string_view> keys, Parts parts,
                                 const Spot& where) {
  for (const auto key : keys) {
    const auto values = person.find(key);
    if (values && !values->is_empty()) return read_points(*values, parts, where.at(key));
  }
  return {};
}

std::vector<RawPoint> hand_under(Value person, std::span<const std::string_view> keys,
                                 const Spot& where) {
  auto points = list_under(person, keys, Parts::xyc, where);
  return points.size() == count_of_hand ? points : std::vector<RawPoint>();
}

RawPerson person_of(Value value, const Spot& where) {
  RawPerson person;
  if (value.is_empty()) return person;
  if (!value.is_object()) {
    refuse(where, Fault::bad_value, "should be an object, is " + kind_of(value));
  }
  person.body = list_under(value, body_keys, Parts::xyc, where);
  person.space = list_under(value, {&space_key, 1}, Parts::xyzc, where);
  person.left_hand = hand_under(value, left_hand_keys, where);
  person.right_hand = hand_under(value, right_hand_keys, where);
  return person;
}

void add_frame(Value value, const Spot& where, RawFilm& film) {
  RawFrame frame;
  frame.number = film.frames.size();
  if (!value.is_empty()) {
    const auto key = people_key(value);
    if (!key) {
      refuse(where, Fault::bad_value, "should be an object with people, is " + kind_of(value));
    }
    const Spot list = where.at(*key);
    std::size_t i = 0;
    for (const Value each : value.find(*key)->list()) {
      const Spot here = list.at(i++);
      frame.add(person_of(each, here), here);
    }
  }
  film.add(std::move(frame), where);
}

/// The size of the picture, as editors of such files write it.
void read_canvas(Value frame, RawFilm& film) {
  const auto number = [&](std::string_view key) {
    const auto value = frame.find(key);
    return value ? value->number().value_or(0) : 0;
  };
  const ImageSize size{number("canvas_width"), number("canvas_height")};
  if (size.width_px > 0 && size.height_px > 0) film.image = size;
}

void add_by_name(Value document, const Spot& where, RawFilm& film) {
  std::vector<Member> members;
  for (const Member member : document.members()) members.push_back(member);
  std::stable_sort(members.begin(), members.end(),
                   [](const Member& a, const Member& b) { return natural_less(a.key, b.key); });
  std::vector<std::string> names;
  for (const auto& [key, value] : members) {
    const Spot here = where.at(key);
    add_frame(value, here.in_frame(names.size()), film);
    names.emplace_back(key);
  }
  const auto numbers = frame_numbers(names);
  for (std::size_t i = 0; i < numbers.size(); ++i) film.frames[i].number = numbers[i];
}

void add_list(Value document, const Spot& where, RawFilm& film) {
  Stamps stamps;
  for (const Value each : document.list()) {
    const std::size_t i = film.frames.size();
    const Spot here = where.at(i);
    add_frame(each, here.in_frame(i), film);
    stamps.add(each);
  }
  stamps.stamp(film);
}

RawFilm read(Value document, const Spot& where) {
  RawFilm film;
  film.form = "one list of people a frame";
  // In the first camera's axes and the unit that they were calibrated in, which nobody tells.
  film.space = {SpaceSource::uncalibrated_cameras, SpaceAxes::camera, 0};
  film.layouts = {"body-25", "body-25b",           "coco-25",      "openpose-18", "mpi-15",
                  "coco-17", "halpe-26",           "halpe-136",    "body-135",    "body-19",
                  "h36m-17", "coco-wholebody-133", "wholebody-134"};
  if (is_by_name(document)) {
    add_by_name(document, where, film);
  } else if (document.is_object()) {
    add_frame(document, where.in_frame(0), film);
    read_canvas(document, film);
  } else {
    add_list(document, where, film);
    read_canvas(*first_filled(document), film);
  }
  return film;
}

}  // namespace

const Form people_per_frame = {
    "people-per-frame",
    "a frame a file, or a list of them: {people: [{pose_keypoints_2d: [x, y, c, …]}]}", recognises,
    read};

}  // namespace rangecheck::intake
