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
    numbers[given] = number_or_nan(each, where, given);
    ++given;
  }
  return made_of(numbers, parts, given);
}

/// The members of a point's object that say where it is and how sure that is.
class PointMembers {
 public:
  enum Which { x, y, z, position, point, first_score };

  explicit PointMembers(Value object) : object_(object) {
    numbers_.fill(RawPoint::none);
    for (const auto [key, value] : object.members()) {
      const auto which = which_of(key);
      if (!which) continue;
      if (const auto number = value.number()) {
        numbers_[*which] = *number;
      } else if (value.kind() != Kind::null) {
        others_ |= 1U << *which;
      }
    }
  }

  /// The list or object that is there.
  std::optional<Value> inner(Which which) const {
    const auto value = is_other(which) ? object_.find(name_of(which)) : std::nullopt;
    return value && value->is_container() ? value : std::nullopt;
  }
  /// NaN where there is none.
  double number(std::size_t which, const Spot& where) const {
    if (!is_other(which)) return numbers_[which];
    return number_or_nan(*object_.find(name_of(which)), where, name_of(which));
  }
  /// The first of them that is there.
  double score(const Spot& where) const {
    for (std::size_t i = 0; i < std::size(score_keys); ++i) {
      const double score = number(first_score + i, where);
      if (!std::isnan(score)) return score;
    }
    return RawPoint::none;
  }

 private:
  static constexpr std::string_view names[] = {"x", "y", "z", "position", "point"};
  static constexpr std::string_view name_of(std::size_t which) {
    return which < first_score ? names[which] : score_keys[which - first_score];
  }
  static std::optional<std::size_t> which_of(std::string_view key) {
    for (std::size_t i = 0; i < first_score + std::size(score_keys); ++i) {
      if (name_of(i) == key) return i;
    }
    return std::nullopt;
  }
  bool is_other(std::size_t which) const { return (others_ >> which & 1U) != 0; }

  Value object_;
  std::array<double, first_score + std::size(score_keys)> numbers_;
  unsigned others_ = 0;  ///< a bit each: neither number nor null
};

RawPoint read_object(Value value, Parts parts, const Spot& where) {
  using Members = PointMembers;
  const Members members(value);
  for (const auto& [which, key] : {std::pair{Members::position, std::string_view("position")},
                                   {Members::point, std::string_view("point")}}) {
    const auto inner = members.inner(which);
    if (!inner) continue;
    RawPoint point = read_point(*inner, parts, where.at(key));
    if (const double score = members.score(where); !std::isnan(score)) point.score = score;
    return point;
  }
  return {members.number(Members::x, where), members.number(Members::y, where),
          members.number(Members::z, where), members.score(where)};
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
    numbers[index % step] = number_or_nan(each, where, index);
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
