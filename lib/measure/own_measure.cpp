// SPDX-License-Identifier: MIT
#include "measure/own_measure.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "measure/geometry.hpp"
#include "measure/measurement.hpp"

namespace rangecheck::measure {
namespace {

Error fault(std::string what, std::string remedy) {
  return {Fault::bad_profile, std::move(what), {}, std::move(remedy)};
}

/// Calls `visit(point, in_change)` for every point of `primitive`, in the order they are written.
template <class Visit>
class EachPoint {
 public:
  EachPoint(const Visit& visit, bool in_change) : visit_(visit), in_change_(in_change) {}

  void of(const Primitive& primitive) const { std::visit(*this, primitive.kind); }
  void operator()(const AngleAtJoint& angle) const {
    for (const PointOf* point : {&angle.first, &angle.joint, &angle.second})
      visit_(*point, in_change_);
  }
  void operator()(const LineAgainst& angle) const {
    along(angle.line);
    if (const auto* line = std::get_if<LineOf>(&angle.reference)) along(*line);
  }
  void operator()(const DistanceAlong& distance) const { along({distance.from, distance.to}); }
  void operator()(const DistanceBetween& distance) const { along({distance.from, distance.to}); }
  void operator()(const RatioOf& ratio) const {
    of(*ratio.over);
    of(*ratio.under);
  }
  void operator()(const ChangeOf& change) const { EachPoint(visit_, true).of(*change.of); }

 private:
  void along(const LineOf& line) const {
    visit_(line.from, in_change_);
    visit_(line.to, in_change_);
  }
  const Visit& visit_;
  bool in_change_;
};

template <class Visit>
void for_each_point(const Primitive& primitive, const Visit& visit) {
  EachPoint(visit, false).of(primitive);
}

Dimension dimension_of(const Primitive& primitive) {
  struct Of {
    Dimension operator()(const AngleAtJoint&) const { return Dimension::angle; }
    Dimension operator()(const LineAgainst&) const { return Dimension::angle; }
    Dimension operator()(const DistanceAlong&) const { return Dimension::length; }
    Dimension operator()(const DistanceBetween&) const { return Dimension::length; }
    Dimension operator()(const RatioOf&) const { return Dimension::ratio; }
    Dimension operator()(const ChangeOf& change) const { return dimension_of(*change.of); }
  };
  return std::visit(Of{}, primitive.kind);
}

/// Can't be negative, and reads high near 0.
bool is_unsigned_angle(const Primitive& primitive) {
  if (const auto* against = std::get_if<LineAgainst>(&primitive.kind))
    return against->plane == Plane::space;
  return std::holds_alternative<AngleAtJoint>(primitive.kind);
}

bool same(const PointOf& a, const PointOf& b) {
  return std::ranges::is_permutation(a.landmarks, b.landmarks);
}

std::string words(const PointOf& point) {
  std::string out;
  for (const LandmarkId id : point.landmarks) out += (out.empty() ? "" : " and ") + name_of(id);
  return out;
}

Point unit_of(Axis axis) {
  if (axis == Axis::target) return Point::UnitX();
  return axis == Axis::up ? Point::UnitY() : Point::UnitZ();
}

/// The axis that has no direction in `plane`.
std::optional<Axis> square_to(Plane plane) {
  switch (plane) {
    case Plane::ground:
      return Axis::up;
    case Plane::front:
      return Axis::ball;
    case Plane::side:
      return Axis::target;
    case Plane::space:
      break;
  }
  return std::nullopt;
}

/// What makes no sense about a primitive, or nothing.
class Sense {
 public:
  explicit Sense(bool in_change) : in_change_(in_change) {}

  std::optional<Error> of(const std::shared_ptr<const Primitive>& primitive) const {
    if (!primitive) return fault("a part of the measure is missing", "write what it is made of");
    return of(*primitive);
  }
  std::optional<Error> of(const Primitive& primitive) const {
    return std::visit(*this, primitive.kind);
  }
  std::optional<Error> operator()(const AngleAtJoint& angle) const {
    if (auto error = line({angle.joint, angle.first})) return error;
    if (auto error = line({angle.joint, angle.second})) return error;
    return line({angle.first, angle.second});
  }
  std::optional<Error> operator()(const LineAgainst& angle) const {
    if (auto error = line(angle.line)) return error;
    if (const auto* axis = std::get_if<Axis>(&angle.reference)) {
      if (*axis != square_to(angle.plane)) return std::nullopt;
      return fault("the axis has no direction in the plane of the angle",
                   "choose another plane, or another axis");
    }
    const auto& reference = std::get<LineOf>(angle.reference);
    if (auto error = line(reference)) return error;
    if (!same(angle.line.from, reference.from) || !same(angle.line.to, reference.to))
      return std::nullopt;
    return fault("the line is measured against itself", "name another line as the reference");
  }
  std::optional<Error> operator()(const DistanceAlong& distance) const {
    return line({distance.from, distance.to});
  }
  std::optional<Error> operator()(const DistanceBetween& distance) const {
    return line({distance.from, distance.to});
  }
  std::optional<Error> operator()(const RatioOf& ratio) const {
    for (const auto& part : {ratio.over, ratio.under}) {
      if (auto error = of(part)) return error;
      if (dimension_of(*part) == Dimension::length) continue;
      return fault("a ratio is of two lengths, and a part of this one is not a length",
                   "use distances in both parts");
    }
    return std::nullopt;
  }
  std::optional<Error> operator()(const ChangeOf& change) const {
    if (in_change_)
      return fault("a change is taken of a change", "take the change since address once");
    return Sense(true).of(change.of);
  }

 private:
  std::optional<Error> point(const PointOf& point) const {
    if (point.landmarks.empty())
      return fault("a point has no landmark", "name one landmark, or those whose middle it is");
    for (const LandmarkId id : point.landmarks) {
      if (std::ranges::count(point.landmarks, id) > 1)
        return fault(fmt::format("a point names the {} twice", name_of(id)), "name it once");
    }
    return std::nullopt;
  }
  std::optional<Error> line(const LineOf& line) const {
    if (auto error = point(line.from)) return error;
    if (auto error = point(line.to)) return error;
    if (!same(line.from, line.to)) return std::nullopt;
    return fault(fmt::format("the {} is used as both ends of a line", words(line.from)),
                 "name two different points");
  }
  bool in_change_;
};

std::optional<Error> fault_in(const OwnMeasureFacts& facts) {
  if (facts.id.empty() || kebab(facts.id) != facts.id) {
    const std::string better = kebab(facts.id);
    return fault(fmt::format("{} can't be the name of a measure", rangecheck::quoted(facts.id)),
                 better.empty() ? "use small letters and hyphens" : "write it " + better);
  }
  if (find_rule(facts.id) != nullptr)
    return fault(facts.id + " is a measure that is built in", "choose another name");
  if (trim(facts.title).empty()) return fault("the measure has no title", "give it a title");
  if (trim(facts.sign).empty())
    return fault("nothing says what 0 and a positive value mean", "say it in a few words (sign)");
  if (facts.at == Positions())
    return fault("the measure is taken nowhere in the swing", "name a position");
  if (facts.seen_limit_si && !(*facts.seen_limit_si > 0))
    return fault("the limit of what counts as seen is not above 0", "leave it out or raise it");
  return Sense(false).of(facts.primitive);
}

double usual_limit_si(Dimension dimension) {
  if (dimension == Dimension::angle) return Angle::degrees(6).in_radians();
  return dimension == Dimension::length ? Length::inches(1.5).in_metres() : 0.1;
}

/// `v` seen in `plane`: open positive on the ground, from the horizontal axis upward in the others.
std::optional<Angle> angle_in(Plane plane, const Point& v) {
  if (plane == Plane::ground) return direction(-v.z(), v.x());
  return direction(v.y(), plane == Plane::front ? v.x() : v.z());
}

/// Values of primitives for the points of a rule, now or at address.
class Evaluation {
 public:
  Evaluation(const Rule& rule, std::span<const Point> points, bool at_address)
      : rule_(rule), points_(points), at_address_(at_address) {}

  std::optional<double> of(const Primitive& primitive) const {
    return std::visit(*this, primitive.kind);
  }
  std::optional<double> operator()(const AngleAtJoint& angle) const {
    const Point joint = at(angle.joint);
    return radians(angle.flexion
                       ? flexion(at(angle.first), joint, at(angle.second))
                       : angle_between(at(angle.first) - joint, at(angle.second) - joint));
  }
  std::optional<double> operator()(const LineAgainst& angle) const {
    const auto* line = std::get_if<LineOf>(&angle.reference);
    const Point reference = line ? along(*line) : unit_of(std::get<Axis>(angle.reference));
    if (angle.plane == Plane::space) return radians(angle_between(reference, along(angle.line)));
    const auto to = angle_in(angle.plane, along(angle.line));
    const auto from = angle_in(angle.plane, reference);
    if (!to || !from) return std::nullopt;
    return wrapped(*to - *from).in_radians();
  }
  std::optional<double> operator()(const DistanceAlong& distance) const {
    return along({distance.from, distance.to}).dot(unit_of(distance.axis));
  }
  std::optional<double> operator()(const DistanceBetween& distance) const {
    return along({distance.from, distance.to}).norm();
  }
  std::optional<double> operator()(const RatioOf& ratio) const {
    const auto over = of(*ratio.over), under = of(*ratio.under);
    if (!over || !under || std::abs(*under) < coincident_m) return std::nullopt;
    return *over / *under;
  }
  std::optional<double> operator()(const ChangeOf& change) const {
    const auto now = of(*change.of);
    const auto before = Evaluation(rule_, points_, true).of(*change.of);
    if (!now || !before) return std::nullopt;
    if (dimension_of(*change.of) != Dimension::angle) return *now - *before;
    return wrapped(Angle::radians(*now - *before)).in_radians();
  }

 private:
  static std::optional<double> radians(std::optional<Angle> angle) {
    if (!angle) return std::nullopt;
    return angle->in_radians();
  }
  Point at(const PointOf& point) const {
    const auto& ids = at_address_ ? rule_.address_needs : rule_.needs;
    const auto given = at_address_ ? points_.subspan(rule_.needs.size()) : points_;
    Point sum = Point::Zero();
    for (const LandmarkId id : point.landmarks)
      sum += given[static_cast<std::size_t>(std::ranges::find(ids, id) - ids.begin())];
    return sum / static_cast<double>(point.landmarks.size());
  }
  Point along(const LineOf& line) const { return at(line.to) - at(line.from); }

  const Rule& rule_;
  std::span<const Point> points_;
  bool at_address_;
};

}  // namespace

Result<std::unique_ptr<const OwnMeasure>> OwnMeasure::make(OwnMeasureFacts facts) {
  if (auto error = fault_in(facts)) return *std::move(error);
  auto own = std::unique_ptr<OwnMeasure>(new OwnMeasure(std::move(facts)));
  const auto add = [](std::vector<LandmarkId>& ids, LandmarkId id) {
    if (std::ranges::find(ids, id) == ids.end()) ids.push_back(id);
  };
  for_each_point(own->facts_.primitive, [&own, &add](const PointOf& point, bool in_change) {
    for (const LandmarkId id : point.landmarks) {
      add(own->needs_, id);
      if (in_change) add(own->address_needs_, id);
    }
  });
  if (!own->address_needs_.empty() && own->facts_.at.has(Position::address))
    return fault("a change since address is nil at address itself", "name a later position (at)");
  own->source_ = "the coach's own, " + own->facts_.origin;

  const Dimension dimension = dimension_of(own->facts_.primitive);
  own->rule_ = {
      .id = own->facts_.id,
      .title = own->facts_.title,
      .region = own->facts_.region,
      .dimension = dimension,
      .sign = own->facts_.sign,
      .needs = own->needs_,
      .seen_limit_si = own->facts_.seen_limit_si.value_or(usual_limit_si(dimension)),
      .limit = "A coach's own measure: no worked example stands behind it.",
      .source = own->source_,
      .examples = {},
      .magnitude = is_unsigned_angle(own->facts_.primitive),
      .at = own->facts_.at,
      .address_needs = own->address_needs_,
      .primitive = &own->facts_.primitive,
  };
  return std::unique_ptr<const OwnMeasure>(std::move(own));
}

std::optional<double> evaluate(const Rule& rule, std::span<const Point> points) {
  return Evaluation(rule, points, false).of(*rule.primitive);
}

}  // namespace rangecheck::measure
