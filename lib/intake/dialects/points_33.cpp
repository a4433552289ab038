// SPDX-License-Identifier: MIT
// Lists of 33 points. Nobody writes these files but programs around the estimator, so that there
// are many shapes. A frame is one of
//   [33 × {x, y, z, visibility}] or [33 × [x, y, z]]           one person
//   [list of 33, list of 33, …]                                several people
//   {"poseLandmarks": [33], "poseWorldLandmarks": [33]}        result objects; also landmarks and
//   {"landmarks": [[33], …], "worldLandmarks": [[33], …]}      worldLandmarks, pose_landmarks and
//   {"pose_landmarks": {"landmark": [33]}, …}                  pose_world_landmarks
//   null, [], {}                                               nobody
// and a document is a frame, an array of frames, or {"frames": [frame, …]}. Image points are
// fractions of the picture (or pixels); world points are metres about the mid-hip.
#include <span>

#include "intake/dialects/forms.hpp"
#include "intake/point_list.hpp"

namespace rangecheck::intake {
namespace {

constexpr std::size_t count = 33;
constexpr std::string_view image_keys[] = {"poseLandmarks", "landmarks", "pose_landmarks"};
constexpr std::string_view world_keys[] = {"poseWorldLandmarks", "worldLandmarks",
                                           "pose_world_landmarks"};

bool is_list_of_33(Value value) {
  const auto first = value.front();
  return first && value.size() == count && is_point(*first);
}

std::optional<std::string_view> first_key(Value value, std::span<const std::string_view> keys) {
  for (const auto key : keys) {
    if (value.has(key)) return key;
  }
  return std::nullopt;
}

bool is_result(Value value) { return first_key(value, image_keys) || first_key(value, world_keys); }

bool is_frame(Value value) {
  if (is_result(value) || is_list_of_33(value)) return true;
  const auto first = value.front();
  return first && is_list_of_33(*first);
}

std::optional<Value> first_filled(Value list) {
  for (const Value each : list.list()) {
    if (!each.is_empty()) return each;
  }
  return std::nullopt;
}

/// The array of frames in a document, or nothing when the document is itself a frame.
std::optional<Value> frames_of(Value document) {
  if (const auto frames = document.find("frames")) return frames;
  if (document.is_list() && !is_list_of_33(document)) return document;
  return std::nullopt;
}

bool recognises(Value document) {
  const auto frames = frames_of(document);
  if (!frames) return is_frame(document);
  const auto sample = first_filled(*frames);
  return sample && is_frame(*sample);
}

/// Calls use(list, where, number of the person) for each list of 33 in `value`.
template <class Use>
void each_person(Value value, const Spot& where, Use use) {
  if (value.is_empty()) return;
  if (const auto wrapped = value.find("landmark")) {
    return each_person(*wrapped, where.at("landmark"), use);
  }
  if (!value.is_list()) {
    refuse(where, Fault::bad_value, "should be a list of points, is " + kind_of(value));
  }
  const auto first = first_filled(value);
  if (!first) return;
  if (is_point(*first)) return use(value, where, std::size_t{0});
  std::size_t i = 0;
  for (const Value each : value.list()) {
    if (!each.is_empty()) use(each, where.at(i), i);
    ++i;
  }
}

std::vector<RawPoint> points_of(Value list, const Spot& where) {
  if (!list.is_list() || list.size() != count) {
    refuse(where, Fault::bad_value,
           list.is_list() ? "has " + std::to_string(list.size()) + " points where 33 are expected"
                          : "should be a list of 33 points, is " + kind_of(list));
  }
  return read_list(list, Parts::xyzc, where);
}

std::vector<RawPerson> people_of(Value value, const Spot& where) {
  std::vector<RawPerson> people;
  const auto grown = [&](std::size_t i) -> RawPerson& {
    if (people.size() <= i) people.resize(i + 1);
    return people[i];
  };
  const auto image = [&](Value list, const Spot& here, std::size_t i) {
    grown(i).body = points_of(list, here);
  };
  const auto world = [&](Value list, const Spot& here, std::size_t i) {
    grown(i).space = points_of(list, here);
  };
  if (!is_result(value)) {
    each_person(value, where, image);
    return people;
  }
  if (const auto key = first_key(value, image_keys)) {
    each_person(*value.find(*key), where.at(*key), image);
  }
  if (const auto key = first_key(value, world_keys)) {
    each_person(*value.find(*key), where.at(*key), world);
  }
  return people;
}

void add_frame(Value value, const Spot& where, RawFilm& film) {
  RawFrame frame;
  frame.number = film.frames.size();
  frame.people = people_of(value, where.in_frame(frame.number));
  film.frames.push_back(std::move(frame));
}

RawFilm read(Value document, const Spot& where) {
  RawFilm film;
  film.layouts = {"points-33"};
  film.score = Score::visibility;
  const auto frames = frames_of(document);
  if (!frames) {
    add_frame(document, where, film);
    return film;
  }
  const Spot list = document.is_object() ? where.at("frames") : where;
  for (const Value each : frames->list()) add_frame(each, list.at(film.frames.size()), film);
  return film;
}

}  // namespace

const Form points_33 = {
    "points-33",
    "lists of 33 points {x, y, z, visibility}: a frame, an array of frames, or result objects "
    "{poseLandmarks, poseWorldLandmarks}",
    recognises, read};

}  // namespace rangecheck::intake
