// SPDX-License-Identifier: MIT
// Lists of 33 points. Nobody writes these files but programs around the estimator, so that there
// are many shapes. One person's points are one of
//   [33 × {x, y, z, visibility}] or [33 × [x, y, z]]           also within {"landmark": …}
//   {"0": {x, y, z, visibility}, …} or {"NOSE": [x, y, z], …}
// and a frame is one of
//   points, [points, …]                                        a person, several people
//   {"poseLandmarks": points, "poseWorldLandmarks": points}    result objects; also landmarks and
//   {"landmarks": [points, …], "worldLandmarks": [points, …]}  worldLandmarks, pose_landmarks and
//                                                              pose_world_landmarks
// Beside poseLandmarks there may be 21 points for each hand. Image points are fractions of the
// picture (or pixels); world points are metres about the mid-hip.
#include <algorithm>
#include <array>

#include "intake/dialects/forms.hpp"
#include "intake/dialects/frames.hpp"
#include "intake/dialects/marks_33.hpp"
#include "intake/point_list.hpp"

namespace rangecheck::intake {
namespace {

constexpr std::size_t count = 33;
/// A hand alone is no golfer; but it is told apart here, so that it can be called what it is.
constexpr std::size_t count_of_hand = 21;

constexpr std::array<std::string_view, 3> image_keys = {"poseLandmarks", "landmarks",
                                                        "pose_landmarks"};
constexpr std::array<std::string_view, 3> world_keys = {"poseWorldLandmarks", "worldLandmarks",
                                                        "pose_world_landmarks"};
constexpr std::array<std::string_view, 2> left_hand_keys = {"leftHandLandmarks",
                                                            "left_hand_landmarks"};
constexpr std::array<std::string_view, 2> right_hand_keys = {"rightHandLandmarks",
                                                             "right_hand_landmarks"};

bool is_list_of_points(Value value) {
  if (!value.is_list() || (value.size() != count && value.size() != count_of_hand)) return false;
  const auto first = first_filled(value);
  return first && is_point(*first);
}

/// {"0": point, …, "32": point}.
bool is_numbered(Value value) {
  const auto first = value.find("0");
  return first && is_point(*first) && value.has("20") &&
         (value.size() == count || value.size() == count_of_hand);
}

/// {"NOSE": point, …} with a foot's tip, which only these 33 points call its index.
bool is_named(Value value) {
  if (!value.is_object()) return false;
  for (const auto [key, point] : value.members()) {
    if (is_name_of_33(key) && (point.kind() == Kind::null || is_point(point))) return true;
  }
  return false;
}

bool is_person(Value entry) {
  if (const auto wrapped = entry.find("landmark")) return is_list_of_points(*wrapped);
  return is_list_of_points(entry) || is_numbered(entry) || is_named(entry);
}

bool is_frame(Value entry) {
  return holds_people(entry, is_person, image_keys) || holds_people(entry, is_person, world_keys);
}

constexpr FrameShape shape = {is_frame, is_person};

bool recognises(Value document) { return holds_frames(document, shape); }

std::vector<RawPoint> read_points(Value person, const Spot& where, Names& names) {
  if (const auto wrapped = person.find("landmark")) {
    return read_points(*wrapped, where.at("landmark"), names);
  }
  if (person.is_list()) {
    if (person.size() != count && person.size() != count_of_hand) {
      refuse(where, Fault::bad_value,
             "has " + std::to_string(person.size()) + " points where 33 are expected");
    }
    return read_list(person, Parts::xyzc, where);
  }
  if (!is_numbered(person)) return read_named(person, Parts::xyzc, where, names);
  std::vector<RawPoint> points;
  for (std::size_t i = 0; i < person.size(); ++i) {
    const std::string key = std::to_string(i);
    const auto point = person.find(key);
    if (!point) refuse(where, Fault::bad_value, "has no point " + key);
    points.push_back(read_point(*point, Parts::xyzc, where.at(key)));
  }
  return points;
}

/// Puts everybody's points under one of `keys` into `list` of the people of the frame, in order.
void read_lists(Value entry, const Spot& where, Keys keys, std::vector<RawPoint> RawPerson::*list,
                Names& names, std::vector<RawPerson>& people) {
  const auto key = first_key(entry, keys);
  const Value all = key ? *entry.find(*key) : entry;
  const Spot here = key ? where.at(*key) : where;
  const auto put = [&](Value person, const Spot& spot, std::size_t i) {
    check_people_count(i + 1, spot);
    if (people.size() <= i) people.resize(i + 1);
    people[i].*list = read_points(person, spot, names);
  };
  if (all.is_empty()) return;
  if (is_person(all)) return put(all, here, 0);
  if (!all.is_list()) {
    refuse(here, Fault::bad_value, "should be a list of points, is " + kind_of(all));
  }
  const auto first = first_filled(all);
  if (first && is_point(*first)) return put(all, here, 0);
  std::size_t i = 0;
  for (const Value person : all.list()) {
    if (!person.is_empty()) put(person, here.at(i), i);
    ++i;
  }
}

std::vector<RawPoint> read_hand(Value entry, const Spot& where, Keys keys) {
  const auto key = first_key(entry, keys);
  if (!key) return {};
  Value hand = *entry.find(*key);
  if (const auto wrapped = hand.find("landmark")) hand = *wrapped;
  if (!is_list_of_points(hand) || hand.size() != count_of_hand) return {};
  return read_list(hand, Parts::xyzc, where.at(*key));
}

void read_frame(Value entry, const Spot& where, Names& names, RawFrame& frame) {
  std::vector<RawPerson> people;
  const bool has_space = first_key(entry, world_keys).has_value();
  if (!has_space || first_key(entry, image_keys)) {
    read_lists(entry, where, image_keys, &RawPerson::body, names, people);
  }
  if (has_space) read_lists(entry, where, world_keys, &RawPerson::space, names, people);
  if (!people.empty()) {
    people.front().left_hand = read_hand(entry, where, left_hand_keys);
    people.front().right_hand = read_hand(entry, where, right_hand_keys);
  }
  for (auto& person : people) {
    if (!person.body.empty() || !person.space.empty()) frame.add(std::move(person), where);
  }
}

RawFilm read(Value document, const Spot& where) {
  RawFilm film;
  film.layouts = {"points-33"};
  film.score = Score::visibility;
  Names names;
  const auto frame = [&](Value entry, const Spot& here, RawFrame& into) {
    read_frame(entry, here, names, into);
  };
  read_frames(document, where, shape, frame, film);
  film.names = names.all();
  if (!film.names.empty()) film.estimator = Estimator::points_33;
  check_scale_of_33(film, where);
  return film;
}

}  // namespace

const Form points_33 = {
    "points-33",
    "lists of 33 points {x, y, z, visibility}: a frame, an array of frames, or result objects "
    "{poseLandmarks, poseWorldLandmarks}",
    recognises, read};

}  // namespace rangecheck::intake
