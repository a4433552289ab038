// SPDX-License-Identifier: MIT
#include "pose/people.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace rangecheck::pose {
namespace {

/// What two ends may differ by and be one person, over height, where nobody else is near, and where
/// somebody is.
constexpr double alone_gate = 0.35, contested_gate = 0.10;
/// And by size, as a logarithm.
constexpr double alone_growth = 0.47, contested_growth = 0.16;
/// Whoever else could be meant must fit worse by this.
constexpr double clear = 0.05;
/// Somebody within this many heights, and within this time, makes a place contested.
constexpr double near_heights = 0.9, near_s = 0.35;
/// Speeds hold no longer than this.
constexpr double speed_holds_s = 1.0;
/// A person seen before and after this long is taken to have gone straight between.
constexpr double between_s = 1.0, beyond_s = 0.35;
/// Two people in so many frames are two people; in fewer, one was found where nobody is.
constexpr std::size_t several_frames = 3;
/// No more people than this are told apart: those seen longest.
constexpr std::size_t most_people = 40;
/// Of each stretch no more than so many that begin after it are looked at.
constexpr std::size_t most_successors = 24;

constexpr PointSet feet = [] {
  PointSet out = 0;
  for (std::size_t i = 0; i < shape_points.size(); ++i) {
    const Joint joint = shape_points[i].id.joint;
    if (joint == Joint::ankle || joint == Joint::heel || joint == Joint::big_toe)
      out |= PointSet{1} << i;
  }
  return out;
}();

/// One stretch may go on as another.
struct Edge {
  std::size_t from = 0, to = 0;
  double cost = 0;
};

class Joiner {
 public:
  Joiner(const Sightings& sightings, std::vector<Tracklet> tracklets)
      : sightings_(sightings), tracklets_(std::move(tracklets)) {
    std::stable_sort(
        tracklets_.begin(), tracklets_.end(),
        [](const Tracklet& a, const Tracklet& b) { return a.first.when < b.first.when; });
  }

  std::vector<Someone> run() {
    several_ = are_several();
    find_edges();
    const std::size_t count = tracklets_.size();
    next_.assign(count, none);
    previous_.assign(count, none);
    for (const Edge& edge : edges_) {
      if (next_[edge.from] != none || previous_[edge.to] != none || in_doubt(edge)) continue;
      next_[edge.from] = edge.to;
      previous_[edge.to] = edge.from;
    }
    fill_gaps();
    return collect();
  }

 private:
  static constexpr std::size_t none = std::numeric_limits<std::size_t>::max();

  /// Whether two people were there at once, and not for a moment only.
  bool are_several() const {
    std::size_t frames = 0;
    for (const auto& people : sightings_.frames) {
      const auto bodies = std::count_if(people.begin(), people.end(),
                                        [](const Shape& shape) { return shape.is_body(); });
      frames += bodies > 1;
    }
    return frames >= several_frames;
  }

  void find_edges() {
    edges_from_.resize(tracklets_.size());
    edges_to_.resize(tracklets_.size());
    for (std::size_t i = 0; i < tracklets_.size(); ++i) {
      std::size_t successors = 0;
      for (std::size_t j = i + 1; j < tracklets_.size() && successors < most_successors; ++j) {
        if (tracklets_[j].first.when <= tracklets_[i].last.when) continue;
        ++successors;
        const auto each = cost(i, j);
        if (!each) continue;
        edges_.push_back({i, j, *each});
        edges_from_[i].push_back(edges_.back());
        edges_to_[j].push_back(edges_.back());
      }
    }
    std::stable_sort(edges_.begin(), edges_.end(),
                     [](const Edge& a, const Edge& b) { return a.cost < b.cost; });
  }

  /// How badly `j` continues `i`; nothing when it can't.
  std::optional<double> cost(std::size_t i, std::size_t j) const {
    const End &from = tracklets_[i].last, &to = tracklets_[j].first;
    const double height_px = std::max(from.shape.height_px, to.shape.height_px);
    const double steps = to.when - from.when, gap_s = steps * sightings_.step_s;
    const double grown = std::abs(growth(from.shape, to.shape));
    // Someone who crouches is no other person.
    const double shrunk = std::abs(std::log(from.shape.height_px / to.shape.height_px));
    if (std::min(grown, shrunk) > alone_growth) return std::nullopt;
    // Both go on as they did and meet half way.
    const double held = std::min(steps, speed_holds_s / sightings_.step_s) / 2;
    const Shape a = moved(from.shape, {held * from.speed.x_px, held * from.speed.y_px});
    const Shape b = moved(to.shape, {-held * to.speed.x_px, -held * to.speed.y_px});
    auto apart = distance(a, b, height_px);
    // A golfer's posture changes while the feet stay.
    if (const auto apart_feet = distance(a, b, height_px, feet);
        apart_feet && (!apart || *apart_feet < *apart))
      apart = *apart_feet + std::min(0.02, apart.value_or(1) - *apart_feet);
    if (!apart || *apart > alone_gate) return std::nullopt;
    const double change_px =
        std::hypot(from.speed.x_px - to.speed.x_px, from.speed.y_px - to.speed.y_px);
    const double change_per_s = change_px / height_px / sightings_.step_s;
    const double total = *apart + 0.3 * std::max(0.0, grown - 0.04) +
                         0.05 * std::max(0.0, change_per_s - 0.2) + 0.02 * std::min(gap_s, 2.0);
    if ((total > contested_gate || grown > contested_growth) && contested(i, j))
      return std::nullopt;
    return total;
  }

  /// Whether somebody else is near the place where the one ends and the other begins.
  bool contested(std::size_t i, std::size_t j) const {
    const Tracklet &from = tracklets_[i], &to = tracklets_[j];
    const double margin = near_s / sightings_.step_s;
    for (std::size_t k = 0; k < tracklets_.size(); ++k) {
      const Tracklet& other = tracklets_[k];
      if (k == i || k == j || other.last.when < from.last.when - margin ||
          other.first.when > to.first.when + margin)
        continue;
      // In a film of one person, those who were never there together with these are the same.
      if (!several_ && !at_the_same_time(k, i) && !at_the_same_time(k, j)) continue;
      for (const At& at : other.seen) {
        const double when = sightings_.when[at.frame];
        if (when < from.last.when - margin || when > to.first.when + margin) continue;
        if (near(sightings_.shape(at), from.last.shape) ||
            near(sightings_.shape(at), to.first.shape))
          return true;
      }
    }
    return false;
  }

  static bool near(const Shape& a, const Shape& b) {
    return std::hypot(a.middle.x_px - b.middle.x_px, a.middle.y_px - b.middle.y_px) <
           near_heights * std::max(a.height_px, b.height_px);
  }

  bool at_the_same_time(std::size_t a, std::size_t b) const {
    return tracklets_[a].first.when <= tracklets_[b].last.when &&
           tracklets_[b].first.when <= tracklets_[a].last.when;
  }

  /// Whether another stretch at the same time fits nearly as well at either end, and has no better
  /// place itself.
  bool in_doubt(const Edge& edge) const {
    const auto rivals = [&](const std::vector<Edge>& edges, bool other_end) {
      return std::any_of(edges.begin(), edges.end(), [&](const Edge& other) {
        if (other.cost >= edge.cost + clear) return false;
        const std::size_t theirs = other_end ? other.to : other.from,
                          own = other_end ? edge.to : edge.from;
        return theirs != own && at_the_same_time(theirs, own) &&
               !has_better_place(other, other_end);
      });
    };
    return rivals(edges_from_[edge.from], true) || rivals(edges_to_[edge.to], false);
  }

  bool has_better_place(const Edge& edge, bool for_its_end) const {
    const auto& edges = for_its_end ? edges_to_[edge.to] : edges_from_[edge.from];
    return std::any_of(edges.begin(), edges.end(),
                       [&](const Edge& other) { return other.cost + clear < edge.cost; });
  }

  std::optional<Edge> edge_between(std::size_t from, std::size_t to) const {
    for (const Edge& edge : edges_from_[from])
      if (edge.to == to) return edge;
    return std::nullopt;
  }

  /// Who was passed over, but fits into a gap from both sides without doubt, belongs there.
  void fill_gaps() {
    for (std::size_t head = 0; head < tracklets_.size(); ++head) {
      if (previous_[head] != none) continue;
      std::size_t tail = head;
      while (next_[tail] != none) tail = next_[tail];
      for (const Edge& in : edges_to_[head]) {
        const std::size_t after = next_[in.from];
        if (after == none || after == head) continue;
        const auto out = edge_between(tail, after);
        if (!out || in_doubt(in) || in_doubt(*out)) continue;
        next_[in.from] = head;
        previous_[head] = in.from;
        next_[tail] = after;
        previous_[after] = tail;
        break;
      }
    }
  }

  std::vector<Someone> collect() {
    std::vector<Someone> out;
    for (std::size_t i = 0; i < tracklets_.size(); ++i) {
      if (previous_[i] != none) continue;
      Someone& someone = out.emplace_back();
      for (std::size_t k = i; k != none; k = next_[k])
        someone.stretches.push_back(std::move(tracklets_[k]));
    }
    if (out.size() > most_people) {
      std::stable_sort(out.begin(), out.end(),
                       [](const Someone& a, const Someone& b) { return a.frames() > b.frames(); });
      out.resize(most_people);
    }
    return out;
  }

  const Sightings& sightings_;
  std::vector<Tracklet> tracklets_;
  std::vector<Edge> edges_;                               ///< best first
  std::vector<std::vector<Edge>> edges_from_, edges_to_;  ///< of each stretch
  std::vector<std::size_t> next_, previous_;
  bool several_ = false;
};

}  // namespace

std::size_t Someone::frames() const {
  std::size_t out = 0;
  for (const Tracklet& each : stretches) out += each.seen.size();
  return out;
}

std::vector<At> Someone::seen() const {
  std::vector<At> out;
  for (const Tracklet& each : stretches) out.insert(out.end(), each.seen.begin(), each.seen.end());
  return out;
}

std::vector<Someone> people_of(const Sightings& sightings) {
  return Joiner(sightings, tracklets_of(sightings)).run();
}

std::optional<Shape> shape_at(const Sightings& sightings, const Someone& person, double when) {
  const auto when_of = [&](const At& at) { return sightings.when[at.frame]; };
  const At* before = nullptr;
  const At* after = nullptr;
  const Tracklet* stretch_before = nullptr;
  const Tracklet* stretch_after = nullptr;
  for (const Tracklet& stretch : person.stretches) {
    const auto next = std::partition_point(stretch.seen.begin(), stretch.seen.end(),
                                           [&](const At& at) { return when_of(at) <= when; });
    if (next != stretch.seen.begin()) {
      before = &*std::prev(next);
      stretch_before = &stretch;
    }
    if (next == stretch.seen.end()) continue;
    after = &*next;
    stretch_after = &stretch;
    break;
  }
  const double beyond = beyond_s / sightings.step_s;
  const auto going_on = [&](const End& end) -> std::optional<Shape> {
    const double steps = when - end.when;
    if (std::abs(steps) > beyond) return std::nullopt;
    return moved(end.shape, {steps * end.speed.x_px, steps * end.speed.y_px});
  };
  if (!before && !after) return std::nullopt;
  if (!after) return going_on(stretch_before->last);
  if (!before) return going_on(stretch_after->first);
  const double from = when_of(*before), to = when_of(*after);
  if (from == when) return sightings.shape(*before);
  if ((to - from) * sightings.step_s > between_s) {
    const auto on = going_on(stretch_before->last);
    return on ? on : going_on(stretch_after->first);
  }
  return between(sightings.shape(*before), sightings.shape(*after), (when - from) / (to - from));
}

}  // namespace rangecheck::pose
