// SPDX-License-Identifier: MIT
#include "intake/point_list.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

namespace rangecheck::intake {
namespace {

constexpr std::string_view score_keys[] = {
    "visibility", "score", "confidence", "conf", "likelihood", "inFrameLikelihood", "c"};
constexpr std::string_view name_keys[] = {"name", "part", "bodyPart", "type", "keypoint", "class"};

/// The numbers of a bare point, in the order in which they are written.
using Numbers = std::array<double, 4>;
constexpr Numbers no_numbers = {RawPoint::none, RawPoint::none, RawPoint::none, RawPoint::none};

/// A point with a null where its place or its score should be was looked for and not found.
RawPoint made_of(const Numbers& numbers, Parts parts, std::size_t given) {
  const bool has_score = parts == Parts::xyc || parts == Parts::yxc;
  if (has_score && given > 2 && std::isnan(numbers[2])) return {};
  switch (parts) {
    case Parts::xy:
      return {numbers[0], numbers[1], RawPoint::none, RawPoint::none};
    case Parts::xyc:
      return {numbers[0], numbers[1], RawPoint::none, numbers[2]};
    case Parts::yxc:
      return {numbers[1], numbers[0], RawPoint::none, numbers[2]};
    default:
      return {numbers[0], numbers[1], numbers[2], numbers[3]};
  }
}

RawPoint read_bare(Value value, Parts parts, const Spot& where) {
  Numbers numbers = no_numbers;
  std::size_t given = 0;
  for (const Value each : value.list()) {
    if (given == count_of(parts)) {
      refuse(where, Fault::bad_value,
             "has " + std::to_string(value.size()) + " numbers where a point has " +
                 std::to_string(count_of(parts)));
    }
    numbers[given] = number_or_null(each, where.at(given)).value_or(RawPoint::none);
    ++given;
  }
  return made_of(numbers, parts, given);
}

double member_of(Value point, std::string_view key, const Spot& where) {
  const auto value = point.find(key);
  return value ? number_or_null(*value, where.at(key)).value_or(RawPoint::none) : RawPoint::none;
}

double score_of(Value point, const Spot& where) {
  for (const auto key : score_keys) {
    if (const double score = member_of(point, key, where); !std::isnan(score)) return score;
  }
  return RawPoint::none;
}

RawPoint read_object(Value value, Parts parts, const Spot& where) {
  for (const std::string_view key : {"position", "point"}) {
    const auto inner = value.find(key);
    if (!inner || (!inner->is_object() && !inner->is_list())) continue;
    RawPoint point = read_point(*inner, parts, where.at(key));
    if (const double score = score_of(value, where); !std::isnan(score)) point.score = score;
    return point;
  }
  return {member_of(value, "x", where), member_of(value, "y", where), member_of(value, "z", where),
          score_of(value, where)};
}

std::string name_of(Value value, const Spot& where) {
  for (const auto key : name_keys) {
    const auto name = value.find(key);
    if (!name) continue;
    if (const auto text = name->text()) return std::string(*text);
    if (const auto number = name->whole()) return std::to_string(*number);
  }
  refuse(where, Fault::bad_value, "has no name to tell which point it is");
}

void put(std::vector<RawPoint>& points, std::size_t index, const RawPoint& point) {
  if (points.size() <= index) points.resize(index + 1);
  points[index] = point;
}

}  // namespace

std::vector<RawPoint> read_flat(Value list, Parts parts, const Spot& where) {
  if (!list.is_list()) {
    refuse(where, Fault::bad_value, "should be an array of numbers, is " + kind_of(list));
  }
  const std::size_t step = count_of(parts);
  if (list.size() % step != 0) {
    refuse(where, Fault::bad_value,
           "has " + std::to_string(list.size()) + " numbers, which is no multiple of the " +
               std::to_string(step) + " of a point");
  }
  std::vector<RawPoint> points;
  points.reserve(list.size() / step);
  Numbers numbers = no_numbers;
  std::size_t index = 0;
  for (const Value each : list.list()) {
    numbers[index % step] = number_or_null(each, where.at(index)).value_or(RawPoint::none);
    if (++index % step == 0) points.push_back(made_of(numbers, parts, step));
  }
  return points;
}

std::vector<RawPoint> read_list(Value list, Parts parts, const Spot& where) {
  if (!list.is_list()) {
    refuse(where, Fault::bad_value, "should be a list of points, is " + kind_of(list));
  }
  std::vector<RawPoint> points;
  points.reserve(list.size());
  for (const Value each : list.list()) {
    points.push_back(read_point(each, parts, where.at(points.size())));
  }
  return points;
}

std::vector<RawPoint> read_points(Value list, Parts parts, const Spot& where) {
  const auto first = list.front();
  const bool nested = first && (first->is_list() || first->is_object());
  return nested ? read_list(list, parts, where) : read_flat(list, parts, where);
}

RawPoint read_point(Value value, Parts parts, const Spot& where) {
  switch (value.kind()) {
    case Kind::null:
      return {};
    case Kind::list:
      return read_bare(value, parts, where);
    case Kind::object:
      return read_object(value, parts, where);
    default:
      refuse(where, Fault::bad_value, "should be a point with x and y, is " + kind_of(value));
  }
}

bool is_point(Value value) {
  if (value.is_object()) {
    if (value.has("x") && value.has("y")) return true;
    const auto position = value.has("position") ? value.find("position") : value.find("point");
    return position && is_point(*position);
  }
  if (!value.is_list() || value.size() < 2 || value.size() > 4) return false;
  for (const Value each : value.list()) {
    if (each.kind() != Kind::number && each.kind() != Kind::null) return false;
  }
  return true;
}

std::size_t Names::index_of(std::string_view name, const Spot& where) {
  const auto index = [&] {
    if (next_ < all_.size() && all_[next_] == name) return next_;
    const auto found = std::find(all_.begin(), all_.end(), name);
    return static_cast<std::size_t>(found - all_.begin());
  }();
  if (index == most) {
    refuse(where, Fault::not_a_film, "is one of more points than any estimator has");
  }
  if (index == all_.size()) all_.emplace_back(name);
  next_ = index + 1;
  return index;
}

std::vector<RawPoint> read_named(Value value, Parts parts, const Spot& where, Names& names) {
  std::vector<RawPoint> points;
  if (value.is_object()) {
    for (const auto [key, each] : value.members()) {
      const Spot here = where.at(key);
      const RawPoint point = read_point(each, parts, here);
      put(points, names.index_of(key, here), point);
    }
    return points;
  }
  if (!value.is_list()) {
    refuse(where, Fault::bad_value, "should be a list of points with names, is " + kind_of(value));
  }
  std::size_t i = 0;
  for (const Value each : value.list()) {
    const Spot here = where.at(i++);
    if (each.kind() == Kind::null) continue;
    const RawPoint point = read_point(each, parts, here);
    put(points, names.index_of(name_of(each, here), here), point);
  }
  return points;
}

}  // namespace rangecheck::intake
