// SPDX-License-Identifier: MIT
#include "intake/space.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "intake/missing.hpp"

namespace rangecheck::intake {
namespace {

struct Vector {
  double x = 0, y = 0, z = 0;
};

Vector operator+(Vector a, Vector b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
Vector operator-(Vector a, Vector b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
Vector operator*(Vector a, double by) { return {a.x * by, a.y * by, a.z * by}; }
double dot(Vector a, Vector b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
double norm(Vector a) { return std::sqrt(dot(a, a)); }
Vector cross(Vector a, Vector b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}

std::optional<Vector> place_of(const Person& person, LandmarkId id) {
  const auto& point = person.space[id];
  if (!point) return std::nullopt;
  return Vector{point->x_m, point->y_m, point->z_m};
}

/// From the first landmark to the second; nothing when either is missing.
std::optional<Vector> between(const Person& person, LandmarkId from, LandmarkId to) {
  const auto a = place_of(person, from), b = place_of(person, to);
  if (!a || !b) return std::nullopt;
  return *b - *a;
}

template <class Use>
void each_point(Film& film, Use use) {
  for (auto& frame : film.frames) {
    for (auto& person : frame.people) {
      for (auto& point : person.space.values()) {
        if (point) use(*point);
      }
    }
  }
}

/// The people that are seen first in each frame.
std::vector<const Person*> first_people(const Film& film) {
  std::vector<const Person*> people;
  for (const auto& frame : film.frames) {
    if (!frame.people.empty()) people.push_back(&frame.people.front());
  }
  return people;
}

// ------------------------------------------------------------------------------ size

/// Shoulder to hip, hip to knee and knee to ankle of a grown person, together: 0.288 + 0.245 +
/// 0.246 of a stature of 1.7 m (Drillis & Contini, as in doi:10.1002/9780470549148, figure 4.1).
constexpr double height_to_ankle_m = 0.779 * 1.7;

double height_to_ankle(const Person& person) {
  double height = 0;
  for (const auto& [from, to] : {std::pair{Joint::shoulder, Joint::hip},
                                 {Joint::hip, Joint::knee},
                                 {Joint::knee, Joint::ankle}}) {
    const auto left = between(person, lead(from), lead(to));
    const auto right = between(person, trail(from), trail(to));
    if (!left || !right) return 0;
    height += (norm(*left) + norm(*right)) / 2;
  }
  return height;
}

double metres_in_unit(const RawSpace& space, const Film& film) {
  if (space.unit_m > 0) return space.unit_m;
  // In units: what is smaller is a point, and would be blown up beyond all bounds.
  constexpr double least = 1e-9;
  std::vector<double> heights;
  for (const Person* person : first_people(film)) {
    if (const double height = height_to_ankle(*person); height > least) heights.push_back(height);
  }
  if (heights.empty()) return 1;
  const auto middle = heights.begin() + static_cast<std::ptrdiff_t>(heights.size() / 2);
  std::nth_element(heights.begin(), middle, heights.end());
  return height_to_ankle_m / *middle;
}

// ------------------------------------------------------------------------------ direction

/// The part of `vector` that lies in the ground plane.
Vector level(Vector vector, Vector down) { return vector - down * dot(vector, down); }

/// Where a person looks: along the feet, else square to hips and shoulders. Level; zero when
/// neither is seen.
Vector facing(const Person& person, Vector down) {
  Vector along{};
  for (const Side side : {Side::lead, Side::trail}) {
    const auto foot = between(person, {side, Joint::heel}, {side, Joint::big_toe});
    if (foot) along = along + level(*foot, down);
  }
  constexpr double a_hand_m = 0.05;
  if (norm(along) > a_hand_m) return along;
  Vector across{};
  for (const Joint joint : {Joint::hip, Joint::shoulder}) {
    const auto line = between(person, trail(joint), lead(joint));
    if (line) across = across + level(*line, down);
  }
  // Seen from above, who looks north has the left side in the west.
  return cross(down, across);
}

/// Where the first person looks at the start of the film, of length 1; zero when that isn't seen.
Vector facing_at_start(const Film& film, Vector down) {
  constexpr std::size_t first_frames = 15;
  Vector sum{};
  const auto people = first_people(film);
  for (std::size_t i = 0; i < std::min(people.size(), first_frames); ++i) {
    const Vector one = facing(*people[i], down);
    if (norm(one) > 0) sum = sum + one * (1 / norm(one));
  }
  return norm(sum) > 0 ? sum * (1 / norm(sum)) : Vector{};
}

bool is_world(SpaceAxes axes) { return axes != SpaceAxes::camera && axes != SpaceAxes::camera_up; }

// ------------------------------------------------------------------------------ the picture

constexpr double width_px = 1000;
/// Where nobody has said how far away the camera was; common practice, no source.
constexpr double distance_m = 4;
/// Nearer than this to the camera nothing is drawn.
constexpr double nearest_m = 0.3;
/// Share of the half picture that the drawn person may fill.
constexpr double filled = 0.9;

/// How to draw: first moved by this, then seen with this focal length.
struct Drawing {
  Vector shift;
  double focal_px = 1;
  ImageSize size;
};

/// Least and greatest of some numbers.
struct Range {
  double least = HUGE_VAL, most = -HUGE_VAL;
  void add(double value) {
    least = std::min(least, value);
    most = std::max(most, value);
  }
  double middle() const { return (least + most) / 2; }
};

template <class Use>
void each_point_of_first(const Film& film, Use use) {
  for (const Person* person : first_people(film)) {
    for (const auto& point : person->space.values()) {
      if (point) use(Vector{point->x_m, point->y_m, point->z_m});
    }
  }
}

/// Nothing to do for who stands before the camera; else to the middle of the picture, and so far
/// away that everybody is before the camera.
Vector shift_of(const Film& film) {
  Range x, y, z, everybody;
  each_point_of_first(film, [&](Vector at) {
    x.add(at.x);
    y.add(at.y);
    z.add(at.z);
  });
  for (const auto& frame : film.frames) {
    for (const auto& person : frame.people) {
      for (const auto& point : person.space.values()) {
        if (point) everybody.add(point->z_m);
      }
    }
  }
  constexpr double before_it_m = 0.5, far_before_it_m = 1;
  if (everybody.least > before_it_m) return {};
  return {-x.middle(), -y.middle(),
          std::max(distance_m - z.middle(), far_before_it_m - everybody.least)};
}

Drawing drawing_of(const Film& film) {
  Drawing drawing;
  drawing.shift = shift_of(film);
  double across = 0, up = 0;  // tangents of the angles to the person's edges
  each_point_of_first(film, [&](Vector at) {
    const Vector moved = at + drawing.shift;
    if (moved.z < nearest_m) return;
    across = std::max(across, std::abs(moved.x / moved.z));
    up = std::max(up, std::abs(moved.y / moved.z));
  });
  constexpr double flattest = 0.75, tallest = 2;
  const double aspect = across > 0 ? std::clamp(up / across, flattest, tallest) : 1;
  drawing.size = {width_px, std::round(width_px * aspect)};
  constexpr double narrow = 1e-3;
  drawing.focal_px = filled / 2 *
                     std::min(drawing.size.width_px / std::max(across, narrow),
                              drawing.size.height_px / std::max(up, narrow));
  return drawing;
}

void draw(const Drawing& drawing, Person& person) {
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const LandmarkId id = landmark_at(i);
    const auto place = place_of(person, id);
    if (!place) continue;
    const Vector at = *place + drawing.shift;
    if (at.z < nearest_m) continue;
    person.image[id] = Sighting{{drawing.size.width_px / 2 + drawing.focal_px * at.x / at.z,
                                 drawing.size.height_px / 2 + drawing.focal_px * at.y / at.z},
                                person.space[id]->confidence};
  }
}

}  // namespace

void to_camera_axes(const RawSpace& space, Film& film) {
  if (const double unit_m = metres_in_unit(space, film); unit_m != 1) {
    each_point(film, [&](SpatialSighting& point) {
      point.x_m *= unit_m;
      point.y_m *= unit_m;
      point.z_m *= unit_m;
    });
  }
  const Down way = down_in(space.axes);
  if (!is_world(space.axes)) {
    if (way.sign < 0) each_point(film, [](SpatialSighting& point) { point.y_m = -point.y_m; });
    return;
  }
  const double sign = way.sign;
  const Vector down = way.is_z ? Vector{0, 0, sign} : Vector{0, sign, 0};
  Vector ahead = facing_at_start(film, down);
  if (norm(ahead) == 0) ahead = way.is_z ? Vector{0, 1, 0} : Vector{0, 0, 1};
  const Vector away = ahead * -1;
  const Vector right = cross(down, away);
  each_point(film, [&](SpatialSighting& point) {
    const Vector at{point.x_m, point.y_m, point.z_m};
    point.x_m = dot(at, right);
    point.y_m = dot(at, down);
    point.z_m = dot(at, away);
  });
}

void draw_picture(Film& film) {
  const Drawing drawing = drawing_of(film);
  film.image = drawing.size;
  film.picture_is_drawn = true;
  for (auto& frame : film.frames) {
    for (auto& person : frame.people) draw(drawing, person);
  }
}

}  // namespace rangecheck::intake
