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
#include <algorithm>
#include <cmath>

#include "intake/dialect.hpp"
#include "intake/points.hpp"

namespace rangecheck::intake {
namespace {

constexpr std::size_t count = points_33_layout.size();
constexpr std::string_view image_keys[] = {"poseLandmarks", "landmarks", "pose_landmarks"};
constexpr std::string_view world_keys[] = {"poseWorldLandmarks", "worldLandmarks",
                                           "pose_world_landmarks"};

bool is_point(const Json& value) {
  if (value.is_object()) return value.contains("x") && value.contains("y");
  return value.is_array() && value.size() >= 2 && value.size() <= 4 &&
         std::all_of(value.begin(), value.end(),
                     [](const Json& v) { return v.is_number() || v.is_null(); });
}

bool is_list_of_33(const Json& value) {
  return value.is_array() && value.size() == count && is_point(value.front());
}

template <std::size_t n>
std::optional<std::string_view> first_key(const Json& value, const std::string_view (&keys)[n]) {
  for (const auto key : keys) {
    if (member(value, key) != nullptr) return key;
  }
  return std::nullopt;
}

bool is_result(const Json& value) {
  return first_key(value, image_keys) || first_key(value, world_keys);
}

bool is_frame(const Json& value) {
  if (is_result(value) || is_list_of_33(value)) return true;
  return value.is_array() && !value.empty() && is_list_of_33(value.front());
}

/// The array of frames in a document, or nullptr when the document is itself a frame.
const Json* frames_of(const Json& document) {
  if (const Json* frames = member(document, "frames")) return frames;
  return document.is_array() && !is_list_of_33(document) ? &document : nullptr;
}

bool recognises(const Json& document) {
  const Json* frames = frames_of(document);
  if (frames == nullptr) return is_frame(document);
  if (!frames->is_array()) return false;
  const auto sample = std::find_if_not(frames->begin(), frames->end(), is_empty);
  return sample != frames->end() && is_frame(*sample);
}

/// The four numbers of a point, whichever way it is written.
struct Numbers {
  std::optional<double> x, y, z, visibility;
};

std::optional<double> part_of(const Json& point, std::string_view key, const Spot& where) {
  const Json* value = member(point, key);
  return value == nullptr ? std::nullopt : number_or_null(*value, where.at(key));
}

Numbers numbers_of(const Json& point, const Spot& where) {
  if (point.is_null()) return {};
  if (point.is_array()) {
    const auto part = [&](std::size_t i) {
      return i < point.size() ? number_or_null(point[i], where.at(i)) : std::nullopt;
    };
    return {part(0), part(1), part(2), part(3)};
  }
  if (!point.is_object()) {
    refuse(where, Fault::bad_value, "should be a point with x and y, is " + kind_of(point));
  }
  auto visibility = part_of(point, "visibility", where);
  if (!visibility) visibility = part_of(point, "score", where);
  return {part_of(point, "x", where), part_of(point, "y", where), part_of(point, "z", where),
          visibility};
}

/// Calls use(list, where, number of the person) for each list of 33 in `value`.
template <class Use>
void each_person(const Json& value, const Spot& where, Use use) {
  if (is_empty(value)) return;
  if (const Json* wrapped = member(value, "landmark")) {
    return each_person(*wrapped, where.at("landmark"), use);
  }
  if (!value.is_array()) {
    refuse(where, Fault::bad_value, "should be a list of points, is " + kind_of(value));
  }
  const auto first = std::find_if_not(value.begin(), value.end(), is_empty);
  if (first == value.end()) return;
  if (is_point(*first)) return use(value, where, std::size_t{0});
  for (std::size_t i = 0; i < value.size(); ++i) {
    if (!is_empty(value[i])) use(value[i], where.at(i), i);
  }
}

void check_count(const Json& list, const Spot& where) {
  if (list.is_array() && list.size() == count) return;
  refuse(where, Fault::bad_value,
         list.is_array() ? "has " + std::to_string(list.size()) + " points where 33 are expected"
                         : "should be a list of 33 points, is " + kind_of(list));
}

void read_image(const Json& list, const Spot& where, Person& person) {
  check_count(list, where);
  for (std::size_t i = 0; i < count; ++i) {
    const auto [x, y, z, visibility] = numbers_of(list[i], where.at(i));
    if (!points_33_layout[i]) continue;
    person.image[*points_33_layout[i]] = sighting_of(x, y, visibility.value_or(1));
  }
}

void read_world(const Json& list, const Spot& where, Person& person) {
  check_count(list, where);
  for (std::size_t i = 0; i < count; ++i) {
    const auto [x, y, z, visibility] = numbers_of(list[i], where.at(i));
    const bool given = x && y && z && (*x != 0 || *y != 0 || *z != 0);
    if (!points_33_layout[i] || !given) continue;
    person.space[*points_33_layout[i]] =
        SpatialSighting{*x, *y, *z, std::clamp(visibility.value_or(1), 0.0, 1.0)};
  }
}

/// True for a mid-hip at the origin: world points have it there, image points never do in a film
/// that shows the golfer.
bool is_hip_centred(const Person& person) {
  const auto& left_hip = person.image[lead(Joint::hip)];
  const auto& right_hip = person.image[trail(Joint::hip)];
  if (!left_hip || !right_hip) return false;
  constexpr double within = 0.02;
  return std::abs(left_hip->at.x_px + right_hip->at.x_px) < within &&
         std::abs(left_hip->at.y_px + right_hip->at.y_px) < within;
}

std::vector<Person> people_of(const Json& value, const Spot& where) {
  std::vector<Person> people;
  const auto grown = [&](std::size_t i) -> Person& {
    if (people.size() <= i) people.resize(i + 1);
    return people[i];
  };
  const auto image = [&](const Json& list, const Spot& here, std::size_t i) {
    read_image(list, here, grown(i));
  };
  const auto world = [&](const Json& list, const Spot& here, std::size_t i) {
    read_world(list, here, grown(i));
  };
  if (!is_result(value)) {
    each_person(value, where, image);
    return people;
  }
  if (const auto key = first_key(value, image_keys)) {
    each_person(*member(value, *key), where.at(*key), image);
  }
  if (const auto key = first_key(value, world_keys)) {
    each_person(*member(value, *key), where.at(*key), world);
  }
  return people;
}

/// What reading has learnt about the film as a whole.
struct Overview {
  std::size_t people = 0, space_only = 0, hip_centred = 0;
};

Frame frame_of(const Json& value, const Spot& where, std::size_t number, Overview& overview) {
  Frame frame;
  frame.number = number;
  for (Person& person : people_of(value, where)) {
    if (!has_points(person)) {
      ++overview.space_only;
      continue;
    }
    ++overview.people;
    if (is_hip_centred(person)) ++overview.hip_centred;
    frame.people.push_back(std::move(person));
  }
  return frame;
}

void judge(const Overview& overview, const Spot& where) {
  const bool in_metres = overview.people > 0 && overview.hip_centred == overview.people;
  if (!in_metres && (overview.people > 0 || overview.space_only == 0)) return;
  refuse(where, Fault::not_a_film,
         "holds only the estimator's points in space (metres about the mid-hip), not the points in "
         "the picture",
         "export the image landmarks too");
}

Film read(const Json& document, const Spot& where) {
  Film film;
  film.dialect = "33 points";
  film.estimator = Estimator::points_33;
  Overview overview;
  if (const Json* frames = frames_of(document)) {
    const Spot list = frames == &document ? where : where.at("frames");
    for (std::size_t i = 0; i < frames->size(); ++i) {
      const Spot here = list.at(i);
      film.frames.push_back(frame_of((*frames)[i], here.in_frame(i), i, overview));
    }
  } else {
    film.frames.push_back(frame_of(document, where.in_frame(0), 0, overview));
  }
  judge(overview, where);
  return film;
}

}  // namespace

const Dialect points_33 = {
    "lists of 33 points {x, y, z, visibility}: a frame, an array of frames, or result objects "
    "{poseLandmarks, poseWorldLandmarks}",
    recognises, read};

}  // namespace rangecheck::intake
