// SPDX-License-Identifier: MIT
// [[[x, y, z] * 17], …], a list of points a frame, as programs write what a lifter made of an
// ordinary film; or {"2": {"1": {"0": [[x, y, z] * 17], …}}}, recordings by action and take, as
// they were measured. From the pelvis outward (H36M order). Metres or millimetres.
//
// Nothing in such a file tells which way is up, so its people do: from the feet to the head. Up
// along −y is a camera's picture (x right, y down, z away from it); any other axis is a room's, of
// any heading, and axes are right-handed.
#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "intake/dialects/forms.hpp"
#include "intake/natural_order.hpp"
#include "intake/point_list.hpp"

namespace rangecheck::intake {
namespace {

constexpr std::size_t point_count = 17;
enum Index : std::size_t {
  pelvis = 0,
  right_hip = 1,
  right_foot = 3,
  left_hip = 4,
  left_foot = 6,
  head = 10
};

using Vector = std::array<double, 3>;

Vector vector_of(const RawPoint& point) { return {point.x, point.y, point.z}; }

Vector minus(Vector a, const Vector& b) {
  for (std::size_t i = 0; i < 3; ++i) a[i] -= b[i];
  return a;
}

Vector middle(Vector a, const Vector& b) {
  for (std::size_t i = 0; i < 3; ++i) a[i] = (a[i] + b[i]) / 2;
  return a;
}

double length(const Vector& v) { return std::hypot(v[0], v[1], v[2]); }

Vector from_feet_to_head(const std::vector<RawPoint>& body) {
  return minus(vector_of(body[head]),
               middle(vector_of(body[right_foot]), vector_of(body[left_foot])));
}

/// Three numbers a point, all of them.
std::optional<std::vector<RawPoint>> body_in(Value list) {
  if (!list.is_list() || list.size() != point_count) return std::nullopt;
  std::vector<RawPoint> body;
  for (const Value point : list.list()) {
    if (!point.is_list() || point.size() != 3) return std::nullopt;
    Vector numbers{};
    std::size_t i = 0;
    for (const Value number : point.list()) {
      const auto value = number.number();
      if (!value) return std::nullopt;
      numbers[i++] = *value;
    }
    body.push_back({numbers[0], numbers[1], numbers[2], RawPoint::none});
  }
  return body;
}

/// Metres in the unit in which this is a person, as tall as people stand or crouch.
std::optional<double> unit_m(const std::vector<RawPoint>& body) {
  constexpr double least_m = 0.5, most_m = 2.5;
  for (const double unit : {1.0, 0.001}) {
    const double height_m = unit * length(from_feet_to_head(body));
    if (height_m > least_m && height_m < most_m) return unit;
  }
  return std::nullopt;
}

/// Points of a picture with their scores are three numbers too. Here the first lies between the
/// second and the fifth, which are the hips; elsewhere they are a nose, an eye and an ear.
bool is_body(Value list) {
  const auto body = body_in(list);
  if (!body || !unit_m(*body)) return false;
  const Vector right = vector_of((*body)[right_hip]), left = vector_of((*body)[left_hip]);
  const double hips = length(minus(left, right));
  const double off = length(minus(vector_of((*body)[pelvis]), middle(left, right)));
  // Hip joints are about a seventh of the height apart; people bend.
  const double height = length(from_feet_to_head(*body));
  return off < 0.35 * hips && hips > 0.05 * height && hips < 0.4 * height;
}

bool is_frame(Value value) {
  return is_body(value) || (value.is_list() && value.front() && is_body(*value.front()));
}

/// The first thing that is no empty frame.
std::optional<Value> first_in(Value value) {
  for (const Value entry : value.list()) {
    if (!entry.is_empty()) return entry;
  }
  for (const auto [key, entry] : value.members()) {
    if (!entry.is_empty()) return entry;
  }
  return std::nullopt;
}

bool recognises(Value document) {
  if (is_frame(document)) return true;
  constexpr int action_take_frame = 3;
  std::optional<Value> inner = document;
  for (int depth = 0; inner && depth < action_take_frame; ++depth) {
    const bool by_name = inner->is_object();
    inner = first_in(*inner);
    if (inner && is_frame(*inner)) return true;
    if (!by_name) return false;
  }
  return false;
}

RawPerson person_of(Value body, const Spot& where) {
  RawPerson person;
  person.space = read_list(body, Parts::xyz, where);
  return person;
}

void add_frame(Value value, const Spot& where, RawFilm& film) {
  const std::size_t number = film.frames.size();
  const Spot here = where.in_frame(number);
  RawFrame frame{number, std::nullopt, {}};
  // A point of a body is a list of numbers, a body of a frame a list of points.
  const auto first = value.front();
  const auto inner = first ? first->front() : std::nullopt;
  const bool is_people = inner && inner->is_list();
  if (!is_people && !value.is_empty()) frame.add(person_of(value, here), here);
  if (is_people) {
    std::size_t i = 0;
    for (const Value body : value.list()) frame.add(person_of(body, here.at(i++)), here);
  }
  film.add(std::move(frame), here);
}

void add_by_name(Value object, const Spot& where, RawFilm& film) {
  std::vector<Member> members;
  for (const auto member : object.members()) members.push_back(member);
  std::stable_sort(members.begin(), members.end(),
                   [](const Member& a, const Member& b) { return natural_less(a.key, b.key); });
  std::vector<std::string> names;
  for (const auto& [key, frame] : members) {
    add_frame(frame, where.at(key), film);
    names.emplace_back(key);
  }
  const auto numbers = frame_numbers(names);
  for (std::size_t i = 0; i < numbers.size(); ++i) film.frames[i].number = numbers[i];
}

void add_frames(Value value, const Spot& where, RawFilm& film) {
  if (is_body(value)) return add_frame(value, where, film);
  if (value.is_list()) {
    std::size_t i = 0;
    for (const Value frame : value.list()) add_frame(frame, where.at(i++), film);
    return;
  }
  const auto first = first_in(value);
  if (!first || first->is_list()) return add_by_name(value, where, film);
  if (value.size() != 1) {
    refuse(where, Fault::not_a_film,
           "holds " + std::to_string(value.size()) + " recordings where one film should be",
           "write each into a file of its own");
  }
  for (const auto [key, inner] : value.members()) add_frames(inner, where.at(key), film);
}

/// Calls use(body) for each person of the film who has all points that tell how people stand.
template <class Use>
void each_body(RawFilm& film, Use use) {
  for (auto& frame : film.frames) {
    for (auto& person : frame.people) {
      if (person.space.size() == point_count) use(person.space);
    }
  }
}

/// Which axis is up, and by which sign.
struct Up {
  std::size_t axis = 1;
  int sign = -1;
};

Up up_in(RawFilm& film, const Spot& where) {
  Vector sum{};
  each_body(film, [&](const std::vector<RawPoint>& body) {
    const Vector up = from_feet_to_head(body);
    if (!std::isfinite(length(up))) return;
    for (std::size_t i = 0; i < 3; ++i) sum[i] += up[i] / length(up);
  });
  Up up;
  for (std::size_t i = 0; i < 3; ++i) {
    if (std::abs(sum[i]) > std::abs(sum[up.axis])) up.axis = i;
  }
  up.sign = sum[up.axis] > 0 ? 1 : -1;
  // Golfers bend over by half a right angle, but from feet to head they lean far less.
  constexpr double upright = 0.8;  // cosine; no source
  if (!(std::abs(sum[up.axis]) > upright * length(sum))) {
    refuse(where, Fault::not_a_film, "does not show which way is up: nobody stands along an axis",
           "turn the points so that y or z is vertical");
  }
  return up;
}

/// Turns the axes, if need be, into ones that assembly knows.
SpaceAxes settle_axes(RawFilm& film, const Spot& where) {
  const Up up = up_in(film, where);
  if (up.axis == 1) return up.sign < 0 ? SpaceAxes::camera : SpaceAxes::world_y_up;
  each_body(film, [&](std::vector<RawPoint>& body) {
    for (RawPoint& point : body) {
      // A turn by a third about the diagonal, and by a half about x: no mirror.
      if (up.axis == 0) point = {point.y, point.z, point.x, point.score};
      if (up.sign < 0) point = {point.x, -point.y, -point.z, point.score};
    }
  });
  return SpaceAxes::world_z_up;
}

RawFilm read(Value document, const Spot& where) {
  RawFilm film;
  film.form = "one list of points in space a frame";
  film.layouts = {"h36m-17"};
  add_frames(document, where, film);
  film.space = {SpaceSource::one_camera, settle_axes(film, where), 1};
  if (document.is_object()) {
    film.space.source = film.space.axes == SpaceAxes::camera ? SpaceSource::uncalibrated_cameras
                                                             : SpaceSource::several_cameras;
  }
  std::optional<double> unit;
  each_body(film, [&](const std::vector<RawPoint>& body) {
    if (!unit) unit = unit_m(body);
  });
  film.space.unit_m = unit.value_or(1);
  return film;
}

}  // namespace

const Form points_17_in_space = {"points-17-in-space",
                                 "[[[x, y, z], …], …] or {\"action\": {\"take\": {\"frame\": [[x, "
                                 "y, z], …]}}}: 17 points in space a "
                                 "frame, from the pelvis outward",
                                 recognises, read};

}  // namespace rangecheck::intake
