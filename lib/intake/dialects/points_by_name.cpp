// SPDX-License-Identifier: MIT
// A person is an object of points under their names: {"nose": {"x": 310, "y": 88}, …} or
// {"nose": [310, 88, 0.9], …}, bare or under `keypoints` or the like. A frame is a person, or a
// list of people, bare or under `poses` or the like.
//
// The joints of one system's own frameworks go by keys of their own ("left_upLeg_joint" is a hip,
// "left_hand_joint" a wrist). Those in the picture are counted from its lower left corner, y up,
// though some programs turn them over in writing; a golfer's head is above his hips and tells. Its
// skeletons in space (91 joints, and the 17 of the later kind) are in metres with y up.
#include <array>
#include <cmath>

#include "intake/dialects/forms.hpp"
#include "intake/dialects/frames.hpp"
#include "intake/layout.hpp"
#include "intake/point_list.hpp"

namespace rangecheck::intake {
namespace {

constexpr std::array<std::string_view, 8> point_keys = {
    "keypoints", "landmarks", "joints", "points", "pose", "positions", "body", "recognizedPoints"};
constexpr std::array<std::string_view, 7> people_keys = {
    "poses", "people", "persons", "bodies", "observations", "detections", "skeletons"};

/// Fewer named points are no body, and other objects have an x and a y under such names too.
constexpr std::size_t least_joints = 4;

bool has_joints(Value object) {
  std::size_t joints = 0;
  for (const auto [key, value] : object.members()) {
    if (joint_named(key) && (value.kind() == Kind::null || is_point(value))) ++joints;
  }
  return joints >= least_joints;
}

/// The key that the points of a person are under: "" when he is the object of points himself.
std::optional<std::string_view> place_of_points(Value person) {
  if (!person.is_object()) return std::nullopt;
  if (has_joints(person)) return "";
  for (const auto key : point_keys) {
    const auto points = person.find(key);
    if (points && has_joints(*points)) return key;
  }
  return std::nullopt;
}

bool is_person(Value entry) { return place_of_points(entry).has_value(); }

bool is_frame(Value entry) { return holds_people(entry, is_person, people_keys); }

constexpr FrameShape shape = {is_frame, is_person};

bool is_own_key(std::string_view key) { return key.ends_with("_joint") || key.ends_with("_3D"); }

/// The object of points in the first person of the first frames, if there is any.
std::optional<Value> first_points(Value document) {
  if (document.is_object()) {
    if (const auto key = place_of_points(document)) {
      return key->empty() ? document : *document.find(*key);
    }
    for (const auto [key, value] : document.members()) {
      if (const auto points = first_points(value)) return points;
    }
    return std::nullopt;
  }
  constexpr std::size_t looked_at = 8;
  std::size_t looked = 0;
  for (const Value entry : document.list()) {
    if (const auto points = first_points(entry)) return points;
    if (++looked == looked_at) break;
  }
  return std::nullopt;
}

bool has_own_keys(Value document) {
  const auto points = first_points(document);
  if (!points) return false;
  for (const auto [key, value] : points->members()) {
    if (is_own_key(key)) return true;
  }
  return false;
}

bool recognises_any(Value document) { return holds_frames(document, shape); }

bool recognises_own(Value document) {
  return holds_frames(document, shape) && has_own_keys(document);
}

Parts parts_of(Value points, bool in_space) {
  std::size_t numbers = 0;
  for (const auto [key, point] : points.members()) {
    if (point.is_list()) numbers = std::max(numbers, point.size());
  }
  if (numbers == 4) return Parts::xyzc;
  return in_space ? Parts::xyz : Parts::xyc;
}

/// The members that are points: beside them may stand a score or an id.
std::vector<RawPoint> read_points(Value object, Parts parts, const Spot& where, Names& names) {
  std::vector<RawPoint> points;
  for (const auto [key, value] : object.members()) {
    if (value.kind() != Kind::null && !is_point(value)) continue;
    const Spot here = where.at(key);
    const RawPoint point = read_point(value, parts, here);
    const std::size_t index = names.index_of(key, here);
    if (points.size() <= index) points.resize(index + 1);
    points[index] = point;
  }
  return points;
}

RawFilm read_all(Value document, const Spot& where, bool in_space) {
  RawFilm film;
  Names names;
  const auto person = [&](Value value, const Spot& here) {
    RawPerson one;
    const auto key = place_of_points(value);
    if (!key) return one;
    const Value object = key->empty() ? value : *value.find(*key);
    const Spot spot = key->empty() ? here : here.at(*key);
    auto points = read_points(object, parts_of(object, in_space), spot, names);
    (in_space ? one.space : one.body) = std::move(points);
    one.track = track_of(value);
    return one;
  };
  const auto frame = [&](Value entry, const Spot& here, RawFrame& into) {
    read_people(entry, here, is_person, people_keys, person, into);
  };
  read_frames(document, where, shape, frame, film);
  film.names = names.all();
  return film;
}

RawFilm read_any(Value document, const Spot& where) {
  RawFilm film = read_all(document, where, false);
  film.form = "points by name";
  return film;
}

/// Mean y of the named joints of a person; NaN without any.
double mean_y(const RawPerson& person, const std::vector<std::string>& names,
              std::span<const Joint> joints) {
  double sum = 0;
  int count = 0;
  for (std::size_t i = 0; i < person.body.size(); ++i) {
    const auto id = joint_named(names[i]);
    const RawPoint& point = person.body[i];
    const bool wanted = id && std::find(joints.begin(), joints.end(), id->joint) != joints.end();
    if (!wanted || !std::isfinite(point.y) || point.score <= 0) continue;
    sum += point.y;
    ++count;
  }
  return count > 0 ? sum / count : RawPoint::none;
}

/// Whether heads are where y is greater. True where nothing tells: the frameworks write it so.
bool counts_upward(const RawFilm& film) {
  constexpr std::array high = {Joint::nose, Joint::eye, Joint::ear, Joint::neck, Joint::shoulder};
  constexpr std::array low = {Joint::hip, Joint::knee, Joint::ankle};
  int up = 0, down = 0;
  for (const auto& frame : film.frames) {
    for (const auto& person : frame.people) {
      const double head = mean_y(person, film.names, high), legs = mean_y(person, film.names, low);
      if (head > legs) ++up;
      if (head < legs) ++down;
    }
  }
  return up >= down;
}

bool is_in_space(Value document) {
  const auto points = first_points(document);
  for (const auto [key, value] : points->members()) {
    if (key == "hips_joint" || key.ends_with("_3D")) return true;
  }
  return false;
}

RawFilm read_own(Value document, const Spot& where) {
  const bool in_space = is_in_space(document);
  RawFilm film = read_all(document, where, in_space);
  film.form = "joints by their framework's keys";
  film.space = {SpaceSource::one_camera, SpaceAxes::world_y_up, 1};
  if (in_space) return film;
  film.y_up = counts_upward(film);
  if (!film.y_up) {
    film.notes.push_back({"reading.from-upper-edge"});
  }
  return film;
}

}  // namespace

const Form points_by_name = {
    "points-by-name",
    "people as objects of points by name: {nose: {x, y}, left_hip: {x, y}, …} a frame",
    recognises_any, read_any};

const Form joints_by_key = {
    "joints-by-key",
    "joints by their framework's keys: {left_upLeg_joint: {x, y, confidence}, …} a frame, y up",
    recognises_own, read_own};

}  // namespace rangecheck::intake
