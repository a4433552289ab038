// SPDX-License-Identifier: MIT
#include "pose/parts.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace rangecheck::pose {
namespace {

/// Boxes nearer than this, over height, overlap.
constexpr double overlap_margin = 0.08;
/// A part that goes on as it did is found within this of where it is expected, over height, and
/// more for the time since it was last trusted: legs, trunk and head by speed, arms that swing a
/// club by acceleration (heights a second, heights a second squared).
constexpr double least_way = 0.03, way_per_s = 0.9, arm_way_per_s2 = 60;
/// No more time counts than this, or one step of a slow film: what was lost longer has to come back
/// to where it was.
constexpr double longest_s = 0.03, arm_longest_s = 0.1;
/// Where nobody else's part can be meant, a part may also have moved by this.
constexpr double free_way = 0.05, free_way_per_s = 4, free_longest_s = 0.06;
/// Speeds are taken between sightings no farther apart.
constexpr double speed_span_s = 0.25;
/// What begins while people overlap may last as long after.
constexpr double aftermath_s = 0.4;
/// An upper arm or thigh is no longer than this many times its usual length, or than this share of
/// the height.
constexpr double longest_bone = 1.35, longest_bone_of_height = 0.24;
/// Nobody else's part is meant farther off than this.
constexpr double far_from_others = 0.12;
/// An arm so near to somebody else's could be either's, however well it fits; another part, if it
/// is not nearer to where it is expected.
constexpr double same_place = 0.05;
/// Somebody else's part that is nearer by this to where the golfer's is expected was exchanged.
constexpr double clear = 0.03;
/// Others are looked for where they are, and half way between where they were and will be so long
/// before and after: in this frame they may have been given something of the golfer's themselves.
constexpr std::array<double, 2> others_about_s{0.15, 0.3};
/// With so many parts gone the rest is not to be trusted either.
constexpr std::size_t most_parts_gone = 2;

bool is_arm(std::size_t part) {
  return part == static_cast<std::size_t>(Part::lead_arm) ||
         part == static_cast<std::size_t>(Part::trail_arm);
}

/// Ties a limb to the body.
struct Bone {
  Part part;
  std::size_t from, to;  ///< of shape_points
};
constexpr std::array bones{
    Bone{Part::lead_arm, point_of(lead(Joint::shoulder)), point_of(lead(Joint::elbow))},
    Bone{Part::trail_arm, point_of(trail(Joint::shoulder)), point_of(trail(Joint::elbow))},
    Bone{Part::lead_leg, point_of(lead(Joint::hip)), point_of(lead(Joint::knee))},
    Bone{Part::trail_leg, point_of(trail(Joint::hip)), point_of(trail(Joint::knee))},
};

/// A person's sightings one after another, held against the last that was trusted: once from the
/// first to the last, once the other way.
class PartCheck {
 public:
  PartCheck(const Sightings& sightings, const std::vector<Someone>& people, std::size_t whose)
      : sightings_(sightings), people_(people), whose_(whose), seen_(people[whose].seen()) {
    for (const At& at : seen_) {
      others_.push_back(others_near(at));
      nearest_.push_back(nearest_others(sightings_.shape(at), others_.back()));
    }
    mark_aftermath();
  }

  std::vector<Foreign> run() {
    if (std::find(alone_.begin(), alone_.end(), false) == alone_.end()) return {};
    learn_bones();
    forward_.assign(seen_.size(), {});
    backward_ = forward_;
    begin(sightings_.when[seen_.front().frame]);
    for (std::size_t k = 0; k < seen_.size(); ++k) check(k, forward_);
    begin(sightings_.when[seen_.back().frame]);
    for (std::size_t k = seen_.size(); k-- > 0;) check(k, backward_);
    for (std::size_t part = 0; part < part_count; ++part) drop_contradictions(part);
    return collect();
  }

 private:
  using Kept = std::vector<std::array<bool, part_count>>;

  /// Where a part was last trusted, and how it moved.
  struct Trusted {
    Shape shape;
    Offset speed;  ///< pixels a step, backward where the film is looked at backward
    double when = 0;
    bool known = false;
  };

  /// Whoever overlaps: seen in this frame, or known to be there without being seen.
  std::vector<Shape> others_near(const At& at) const {
    std::vector<Shape> out;
    const Shape& own = sightings_.shape(at);
    const double margin_px = overlap_margin * own.height_px;
    const auto& people = sightings_.frames[at.frame];
    for (std::size_t i = 0; i < people.size(); ++i) {
      if (i == at.person || !people[i].is_body() || !boxes_touch(own, people[i], margin_px))
        continue;
      if (!twice_the_same(own, people[i])) out.push_back(people[i]);
    }
    const double when = sightings_.when[at.frame];
    const auto add = [&](const std::optional<Shape>& there) {
      if (there && boxes_touch(own, *there, margin_px)) out.push_back(*there);
    };
    for (std::size_t k = 0; k < people_.size(); ++k) {
      if (k == whose_ || people_[k].frames() < 3) continue;
      add(shape_at(sightings_, people_[k], when));
      for (const double about_s : others_about_s) {
        const double steps = about_s / sightings_.step_s;
        const auto before = shape_at(sightings_, people_[k], when - steps),
                   after = shape_at(sightings_, people_[k], when + steps);
        if (before && after) add(between(*before, *after, 0.5));
      }
    }
    return out;
  }

  /// Sightings before or after which nobody overlaps for a while.
  void mark_aftermath() {
    alone_.assign(seen_.size(), true);
    const double span = aftermath_s / sightings_.step_s;
    const auto when_of = [&](std::size_t k) { return sightings_.when[seen_[k].frame]; };
    for (std::size_t k = 0; k < seen_.size(); ++k) {
      if (others_[k].empty()) continue;
      for (std::size_t i = k; i < seen_.size() && when_of(i) - when_of(k) < span; ++i)
        alone_[i] = false;
      for (std::size_t i = k + 1; i-- > 0 && when_of(k) - when_of(i) < span;) alone_[i] = false;
    }
  }

  static std::optional<double> length(const Shape& shape, Bone bone) {
    if (!shape.has(bone.from) || !shape.has(bone.to)) return std::nullopt;
    return std::hypot(shape.x_px[bone.from] - shape.x_px[bone.to],
                      shape.y_px[bone.from] - shape.y_px[bone.to]) /
           shape.height_px;
  }

  void learn_bones() {
    for (std::size_t k = 0; k < bones.size(); ++k) {
      std::vector<double> lengths;
      for (const At& at : seen_)
        if (const auto each = length(sightings_.shape(at), bones[k])) lengths.push_back(*each);
      longest_[k] = longest_bone_of_height;
      if (!lengths.empty())
        longest_[k] = std::max(longest_[k], longest_bone * middle_value(lengths));
    }
  }

  bool has_long_bone(std::size_t part, const Shape& own) const {
    for (std::size_t k = 0; k < bones.size(); ++k) {
      if (static_cast<std::size_t>(bones[k].part) == part &&
          length(own, bones[k]).value_or(0) > longest_[k])
        return true;
    }
    return false;
  }

  void check(std::size_t k, Kept& kept) {
    const Shape& own = sightings_.shape(seen_[k]);
    const double when = sightings_.when[seen_[k].frame];
    for (std::size_t part = 0; part < part_count; ++part) {
      if (!alone_[k] && !is_own(part, own, when, nearest_[k][part], others_[k])) continue;
      kept[k][part] = true;
      trust(part, own, when);
    }
  }

  void trust(std::size_t part, const Shape& own, double when) {
    Trusted& trusted = trusted_[part];
    Offset speed;
    const double steps = when - trusted.when;
    if (trusted.known && steps != 0 && std::abs(steps) * sightings_.step_s < speed_span_s) {
      const Offset way = mean_way(trusted.shape, own, points_of_part[part]);
      speed = {way.x_px / steps, way.y_px / steps};
    }
    trusted = {own, speed, when, true};
  }

  static Offset mean_way(const Shape& from, const Shape& to, PointSet points) {
    Offset sum;
    double count = 0;
    for (std::size_t i = 0; i < shape_points.size(); ++i) {
      if (!((points >> i) & 1U) || !from.has(i) || !to.has(i)) continue;
      sum.x_px += to.x_px[i] - from.x_px[i];
      sum.y_px += to.y_px[i] - from.y_px[i];
      ++count;
    }
    if (count == 0) return {};
    return {sum.x_px / count, sum.y_px / count};
  }

  /// Of each part, how far the nearest of somebody else's is, over height.
  std::array<double, part_count> nearest_others(const Shape& own,
                                                const std::vector<Shape>& others) const {
    std::array<double, part_count> out;
    out.fill(std::numeric_limits<double>::max());
    for (std::size_t part = 0; part < part_count; ++part) {
      for (const Shape& other : others) {
        const auto apart = distance(own, other, own.height_px, points_of_part[part]);
        if (apart) out[part] = std::min(out[part], *apart);
      }
    }
    return out;
  }

  bool is_own(std::size_t part, const Shape& own, double when, double nearest_other,
              const std::vector<Shape>& others) const {
    const PointSet points = points_of_part[part];
    const Trusted& trusted = trusted_[part];
    if ((own.seen & points) == 0) return true;
    if (nearest_other < same_place && is_arm(part)) return false;
    if (has_long_bone(part, own)) return false;
    if (!trusted.known) return false;
    const double time_s = std::abs(when - trusted.when) * sightings_.step_s;
    const double steps = std::clamp(when - trusted.when, -most_steps(), most_steps());
    const Shape expected =
        moved(trusted.shape, {steps * trusted.speed.x_px, steps * trusted.speed.y_px});
    const auto off_by = [&](const Shape& shape) {
      return std::min(distance(shape, expected, own.height_px, points).value_or(1),
                      distance(shape, trusted.shape, own.height_px, points).value_or(1));
    };
    const double off = off_by(own);
    if (nearest_other < same_place && nearest_other < off) return false;
    const bool exchanged =
        off > clear && std::any_of(others.begin(), others.end(),
                                   [&](const Shape& other) { return off_by(other) + clear < off; });
    if (exchanged) return false;
    const bool far = nearest_other > far_from_others;
    // An arm lost for longer is elsewhere by now.
    if (is_arm(part) && time_s > arm_longest_s && !far) return false;
    const double counts_s = std::min(time_s, std::max(longest_s, sightings_.step_s));
    const double way =
        least_way + (is_arm(part) ? arm_way_per_s2 * counts_s * counts_s : way_per_s * counts_s);
    if (off < way) return true;
    return far && off < free_way + free_way_per_s * std::min(time_s, free_longest_s);
  }

  double most_steps() const { return std::max(1.0, longest_s / sightings_.step_s); }

  /// Where one way through the film loses a part just where the other way takes it up, one of them
  /// follows somebody else: what only one of them has kept about there is dropped.
  void drop_contradictions(std::size_t part) {
    const auto only_backward = [&](std::size_t k) {
      return backward_[k][part] && !forward_[k][part];
    };
    const auto only_forward = [&](std::size_t k) {
      return forward_[k][part] && !backward_[k][part];
    };
    for (std::size_t k = 1; k < seen_.size(); ++k) {
      if (!forward_[k - 1][part] || !only_backward(k)) continue;
      for (std::size_t i = k; i < seen_.size() && only_backward(i); ++i) backward_[i][part] = false;
      for (std::size_t i = k; i-- > 0 && only_forward(i);) forward_[i][part] = false;
    }
  }

  std::vector<Foreign> collect() const {
    std::vector<Foreign> out;
    for (std::size_t k = 0; k < seen_.size(); ++k) {
      Foreign foreign{seen_[k], {}, false};
      std::size_t gone = 0;
      for (std::size_t part = 0; part < part_count; ++part)
        gone += foreign.part[part] = !forward_[k][part] && !backward_[k][part];
      foreign.whole = foreign.part[static_cast<std::size_t>(Part::chest)] ||
                      foreign.part[static_cast<std::size_t>(Part::hips)] || gone > most_parts_gone;
      if (gone > 0) out.push_back(foreign);
    }
    return out;
  }

  /// Nothing is trusted yet. Where others are near all the time, every part is looked for where it
  /// is in most frames.
  void begin(double when) {
    trusted_ = {};
    if (std::find(alone_.begin(), alone_.end(), true) != alone_.end()) return;
    const Shape usual = usual_shape();
    trusted_.fill({usual, {}, when, true});
  }

  Shape usual_shape() const {
    Shape usual;
    for (std::size_t point = 0; point < shape_points.size(); ++point) {
      std::vector<double> x_px, y_px;
      for (const At& at : seen_) {
        const Shape& shape = sightings_.shape(at);
        if (!shape.has(point)) continue;
        x_px.push_back(shape.x_px[point]);
        y_px.push_back(shape.y_px[point]);
      }
      if (x_px.empty()) continue;
      usual.x_px[point] = middle_value(x_px);
      usual.y_px[point] = middle_value(y_px);
      usual.seen |= PointSet{1} << point;
    }
    return usual;
  }

  static double middle_value(std::vector<double>& values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
  }

  const Sightings& sightings_;
  const std::vector<Someone>& people_;
  std::size_t whose_;
  std::vector<At> seen_;
  std::vector<std::array<double, part_count>> nearest_;  ///< of the others' parts
  std::vector<std::vector<Shape>> others_;               ///< of each sighting
  Kept forward_, backward_;                              ///< by either way through the film
  std::vector<bool> alone_;  ///< of each sighting: nobody else near, nor shortly before or after
  std::array<double, bones.size()> longest_{};  ///< of each bone, over height
  std::array<Trusted, part_count> trusted_{};
};

}  // namespace

std::vector<Foreign> foreign_parts(const Sightings& sightings, const std::vector<Someone>& people,
                                   std::size_t whose) {
  return PartCheck(sightings, people, whose).run();
}

void remove_part(intake::Person& person, Part part) {
  const auto remove = [&person](LandmarkId id) {
    person.image[id].reset();
    person.space[id].reset();
  };
  for (const ShapePoint& point : shape_points)
    if (point.part == part) remove(point.id);
  if (part != Part::lead_arm && part != Part::trail_arm) return;
  const Side side = part == Part::lead_arm ? Side::lead : Side::trail;
  for (auto joint = static_cast<std::size_t>(Joint::thumb_1);
       joint <= static_cast<std::size_t>(Joint::little_4); ++joint)
    remove({side, static_cast<Joint>(joint)});
}

}  // namespace rangecheck::pose
