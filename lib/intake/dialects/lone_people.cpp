// SPDX-License-Identifier: MIT
#include "intake/dialects/lone_people.hpp"

#include <algorithm>
#include <cmath>

namespace rangecheck::intake {
namespace {

/// Nobody's estimator is asked for more people in one picture of a golfer.
constexpr std::size_t most_people = 12;
/// In sizes of the body. A golfer's points move by less between two pictures even at 10 a second,
/// and two people who stand closer hide each other.
constexpr double least_apart = 0.25;

const std::vector<RawPoint>& points_of(const RawPerson& person) {
  return person.body.empty() ? person.space : person.body;
}

bool has_place(const RawPoint& point) { return std::isfinite(point.x) && std::isfinite(point.y); }

/// Larger side of the box around all points.
double size_of(const std::vector<RawPoint>& points) {
  double left = INFINITY, right = -INFINITY, top = INFINITY, bottom = -INFINITY;
  for (const auto& point : points) {
    if (!has_place(point)) continue;
    left = std::min(left, point.x), right = std::max(right, point.x);
    top = std::min(top, point.y), bottom = std::max(bottom, point.y);
  }
  return std::max(right - left, bottom - top);
}

/// Mean distance of the points that both have, in sizes of the body.
double apart(const RawPerson& one, const RawPerson& other) {
  const auto &a = points_of(one), &b = points_of(other);
  double sum = 0;
  std::size_t both = 0;
  for (std::size_t i = 0; i < std::min(a.size(), b.size()); ++i) {
    if (!has_place(a[i]) || !has_place(b[i])) continue;
    sum += std::hypot(a[i].x - b[i].x, a[i].y - b[i].y);
    ++both;
  }
  const double size = std::max(size_of(a), size_of(b));
  return both > 0 && size > 0 ? sum / static_cast<double>(both) / size : 0;
}

bool are_one_picture(const RawFilm& film) {
  if (film.frames.size() < 2 || film.frames.size() > most_people) return false;
  double least = INFINITY;
  for (std::size_t i = 0; i < film.frames.size(); ++i) {
    const RawFrame& frame = film.frames[i];
    if (frame.people.size() != 1 || frame.time || frame.number != i) return false;
    if (i == 0) continue;
    least = std::min(least, apart(film.frames[i - 1].people.front(), frame.people.front()));
  }
  return least > least_apart;
}

}  // namespace

void put_in_one_picture(RawFilm& film) {
  RawFrame all;
  for (auto& frame : film.frames) {
    for (auto& person : frame.people) all.people.push_back(std::move(person));
  }
  film.frames.assign(1, std::move(all));
}

void settle_lone_people(RawFilm& film) {
  if (are_one_picture(film)) put_in_one_picture(film);
}

}  // namespace rangecheck::intake
