// SPDX-License-Identifier: MIT
#include "intake/body_likeness.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "intake/missing.hpp"

namespace rangecheck::intake {
namespace {

/// A film's first people tell enough.
constexpr std::size_t most_samples = 40;
/// What a body costs whose joints stand in the wrong order from top to bottom, and whose paired
/// bones differ by a factor of e. Chosen on bodies that stand, squat and ride; no source.
constexpr double upside_down = 0.3, unpaired = 0.1;

struct Bone {
  Joint from, to;
};

constexpr std::array paired_bones = {
    Bone{Joint::shoulder, Joint::elbow}, Bone{Joint::elbow, Joint::wrist},
    Bone{Joint::shoulder, Joint::hip},   Bone{Joint::hip, Joint::knee},
    Bone{Joint::knee, Joint::ankle},     Bone{Joint::ankle, Joint::heel},
    Bone{Joint::heel, Joint::big_toe},   Bone{Joint::eye, Joint::ear}};

constexpr Bone to_the_middle[] = {{Joint::nose, Joint::eye},
                                  {Joint::neck, Joint::shoulder},
                                  {Joint::pelvis, Joint::hip},
                                  {Joint::nose, Joint::shoulder},
                                  {Joint::head_top, Joint::ear}};
constexpr Bone in_the_middle[] = {{Joint::nose, Joint::neck}, {Joint::neck, Joint::head_top}};
constexpr Joint across[] = {Joint::shoulder, Joint::hip};
constexpr std::array downward = {Joint::shoulder, Joint::hip, Joint::knee, Joint::ankle};

struct Place {
  double x, y, z;
};

using Body = LandmarkMap<Place>;

double distance(const Place& a, const Place& b) {
  return std::hypot(a.x - b.x, a.y - b.y, a.z - b.z);
}

Body body_of(const RawFilm& film, const std::vector<RawPoint>& list, bool in_space,
             const std::vector<LayoutPoint>& points) {
  Body body;
  for (std::size_t i = 0; i < std::min(list.size(), points.size()); ++i) {
    const RawPoint& point = list[i];
    if (!points[i] || is_nowhere(point, in_space) || point.score <= 0) continue;
    if (in_space) {
      const auto down = down_in(film.space.axes);
      // Down comes second, whatever the axes are called.
      body[*points[i]] = down.is_z ? Place{point.x, down.sign * point.z, point.y}
                                   : Place{point.x, down.sign * point.y, point.z};
    } else {
      body[*points[i]] = {point.x, film.y_up ? -point.y : point.y, 0};
    }
  }
  return body;
}

double extent_of(const Body& body) {
  Place least{HUGE_VAL, HUGE_VAL, HUGE_VAL}, most{-HUGE_VAL, -HUGE_VAL, -HUGE_VAL};
  for (const auto& place : body.values()) {
    if (!place) continue;
    least = {std::min(least.x, place->x), std::min(least.y, place->y), std::min(least.z, place->z)};
    most = {std::max(most.x, place->x), std::max(most.y, place->y), std::max(most.z, place->z)};
  }
  return distance(least, most);
}

/// Mean of what is added.
struct Mean {
  double sum = 0;
  int count = 0;
  void add(double value) {
    sum += value;
    ++count;
  }
  double value() const { return count == 0 ? 0 : sum / count; }
};

/// Adds the bone's length, when both ends are there, and returns it; else 0.
double add_bone(const Body& body, LandmarkId from, LandmarkId to, Mean& lengths) {
  if (!body.has(from) || !body.has(to)) return 0;
  const double length = distance(*body[from], *body[to]);
  lengths.add(length);
  return length;
}

void add_bones(const Body& body, Mean& lengths, Mean& differences) {
  for (const Bone& bone : paired_bones) {
    const double left = add_bone(body, lead(bone.from), lead(bone.to), lengths);
    const double right = add_bone(body, trail(bone.from), trail(bone.to), lengths);
    if (left > 0 && right > 0) differences.add(std::min(std::abs(std::log(left / right)), 2.0));
  }
  for (const Bone& bone : to_the_middle) {
    add_bone(body, centre(bone.from), lead(bone.to), lengths);
    add_bone(body, centre(bone.from), trail(bone.to), lengths);
  }
  for (const Bone& bone : in_the_middle) {
    add_bone(body, centre(bone.from), centre(bone.to), lengths);
  }
  for (const Joint joint : across) add_bone(body, lead(joint), trail(joint), lengths);
}

/// Share of the steps from shoulder to ankle that go up.
double upward_share(const Body& body) {
  Mean up;
  for (const Side side : {Side::lead, Side::trail}) {
    for (std::size_t i = 0; i + 1 < downward.size(); ++i) {
      const auto& above = body[{side, downward[i]}];
      const auto& below = body[{side, downward[i + 1]}];
      if (above && below) up.add(above->y > below->y ? 1 : 0);
    }
  }
  return up.value();
}

/// One body's share; nothing for one of too few bones.
std::optional<double> unlikeness(const Body& body) {
  Mean lengths, differences;
  add_bones(body, lengths, differences);
  const double extent = extent_of(body);
  constexpr int fewest_bones = 6;
  if (lengths.count < fewest_bones || !(extent > 0)) return std::nullopt;
  return lengths.value() / extent + unpaired * differences.value() +
         upside_down * upward_share(body);
}

/// Calls use(body) for the first bodies of a film, until it has been true often enough.
template <class Use>
void each_body(const RawFilm& film, PointsOf list, const std::vector<LayoutPoint>& points,
               Use use) {
  const bool in_space = list == &RawPerson::space;
  std::size_t count = 0;
  for (const RawFrame& frame : film.frames) {
    for (const RawPerson& person : frame.people) {
      if (count == most_samples) return;
      if (use(body_of(film, person.*list, in_space, points))) ++count;
    }
  }
}

}  // namespace

double unlikeness_to_body(const RawFilm& film, PointsOf list,
                          const std::vector<LayoutPoint>& points) {
  Mean mean;
  each_body(film, list, points, [&](const Body& body) {
    const auto one = unlikeness(body);
    if (one) mean.add(*one);
    return one.has_value();
  });
  constexpr double nothing_seen = 1;
  return mean.count == 0 ? nothing_seen : mean.value();
}

bool legs_are_crossed(const RawFilm& film, PointsOf list, const std::vector<LayoutPoint>& points) {
  Mean crossed;
  each_body(film, list, points, [&](const Body& body) {
    const auto &left_hip = body[lead(Joint::hip)], &right_hip = body[trail(Joint::hip)];
    const auto &left = body[lead(Joint::shoulder)], &right = body[trail(Joint::shoulder)];
    if (!left_hip || !right_hip || !left || !right) return false;
    const double agreement = (left_hip->x - right_hip->x) * (left->x - right->x) +
                             (left_hip->z - right_hip->z) * (left->z - right->z);
    crossed.add(agreement < 0 ? 1 : 0);
    return true;
  });
  constexpr double most = 0.8;
  return crossed.value() > most;
}

}  // namespace rangecheck::intake
