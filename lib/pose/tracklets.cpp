// SPDX-License-Identifier: MIT
#include "pose/tracklets.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace rangecheck::pose {
namespace {

/// A body changes its shape by less than this from one frame to the next: a share of its height for
/// the estimator, and more for the time that passed.
constexpr double least_gate = 0.03, gate_per_s = 0.9;
/// Nor does it grow or shrink by more.
constexpr double most_growth = 0.12;
/// Whoever else could be meant must be farther off by this.
constexpr double clear = 0.04;
/// A stretch ends when its person is not seen for longer, in seconds and at least so many steps.
constexpr double most_gap_s = 0.12, most_gap_steps = 3.5;
/// Speed is taken over this long.
constexpr double speed_span_s = 0.2;

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

/// `at` in steps of its own median; all in even steps where it doesn't grow.
std::vector<double> in_steps(const std::vector<double>& at, double& step) {
  std::vector<double> even(at.size()), steps;
  for (std::size_t i = 0; i < at.size(); ++i) {
    even[i] = static_cast<double>(i);
    if (i > 0) steps.push_back(at[i] - at[i - 1]);
  }
  step = steps.empty() ? 0 : median(steps);
  const bool grows = !steps.empty() && *std::min_element(steps.begin(), steps.end()) >= 0;
  if (!grows || !(step > 0)) {
    step = 0;
    return even;
  }
  std::vector<double> out(at.size());
  for (std::size_t i = 0; i < at.size(); ++i) out[i] = (at[i] - at[0]) / step;
  return out;
}

/// People of one frame that are looked at: no parts of bodies, nobody twice.
std::vector<std::size_t> bodies_in(const std::vector<Shape>& people) {
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < people.size(); ++i) {
    if (!people[i].is_body()) continue;
    const auto same = std::find_if(out.begin(), out.end(), [&](std::size_t k) {
      return twice_the_same(people[i], people[k]);
    });
    if (same == out.end()) {
      out.push_back(i);
    } else if (people[i].sure > people[*same].sure) {
      *same = i;
    }
  }
  return out;
}

/// How fast the last (or first) of `seen` moves.
Offset speed_at(const Sightings& sightings, const std::vector<At>& seen, bool at_last) {
  const double span = std::max(2.0, speed_span_s / sightings.step_s);
  const At end = at_last ? seen.back() : seen.front();
  At other = end;
  for (std::size_t k = 0; k < seen.size(); ++k) {
    const At at = at_last ? seen[seen.size() - 1 - k] : seen[k];
    if (std::abs(sightings.when[at.frame] - sightings.when[end.frame]) > span) break;
    other = at;
  }
  const double steps = sightings.when[end.frame] - sightings.when[other.frame];
  if (steps == 0) return {};
  const Offset way = shift(sightings.shape(other), sightings.shape(end));
  return {way.x_px / steps, way.y_px / steps};
}

End end_of(const Sightings& sightings, const std::vector<At>& seen, bool at_last) {
  const At at = at_last ? seen.back() : seen.front();
  return {sightings.shape(at), sightings.when[at.frame], speed_at(sightings, seen, at_last)};
}

/// Builds the stretches, frame after frame.
class Linker {
 public:
  explicit Linker(const Sightings& sightings) : sightings_(sightings) {}

  std::vector<Tracklet> run() {
    for (std::size_t f = 0; f < sightings_.frames.size(); ++f) link(f);
    for (Tracklet& tracklet : out_) finish(tracklet);
    return std::move(out_);
  }

 private:
  static constexpr std::size_t nobody = std::numeric_limits<std::size_t>::max();
  static constexpr double never = 1e9;

  /// A stretch that may go on.
  struct Open {
    std::size_t tracklet = 0;
    std::size_t since = 0;  ///< frame
    End end;
    std::size_t body = nobody;  ///< that it goes on with, in this frame
  };

  /// Costs are distances over height; `fits` where a stretch can go on with a body at all.
  double& cost(std::size_t open, std::size_t body) { return cost_[open * bodies_.size() + body]; }
  bool fits(std::size_t open, std::size_t body) const {
    return fits_[open * bodies_.size() + body];
  }

  void link(std::size_t frame) {
    const double now = sightings_.when[frame];
    const double most_gap = std::max(most_gap_steps, most_gap_s / sightings_.step_s);
    std::erase_if(open_, [&](const Open& open) { return now - open.end.when > most_gap; });
    bodies_ = bodies_in(sightings_.frames[frame]);
    compare(frame);
    take_nearest();
    std::vector<bool> doubtful(bodies_.size());
    for (std::size_t c = 0; c < open_.size(); ++c) {
      if (open_[c].body == nobody || !in_doubt(c)) continue;
      // The others that fit are as doubtful: one person may be found in two halves.
      for (std::size_t b = 0; b < bodies_.size(); ++b)
        if (b == open_[c].body || (taken_by_[b] == nobody && fits(c, b))) doubtful[b] = true;
    }
    extend(frame, doubtful);
  }

  void compare(std::size_t frame) {
    cost_.assign(open_.size() * bodies_.size(), never);
    fits_.assign(cost_.size(), false);
    for (std::size_t c = 0; c < open_.size(); ++c) {
      open_[c].body = nobody;
      const End& end = open_[c].end;
      const double steps = sightings_.when[frame] - end.when;
      const Shape there = moved(end.shape, {steps * end.speed.x_px, steps * end.speed.y_px});
      const double gate = least_gate + gate_per_s * sightings_.step_s * std::max(1.0, steps);
      for (std::size_t b = 0; b < bodies_.size(); ++b) {
        const Shape& body = sightings_.shape({frame, bodies_[b]});
        cost(c, b) = distance(there, body, there.height_px).value_or(never);
        fits_[c * bodies_.size() + b] =
            cost(c, b) < gate && std::abs(growth(end.shape, body)) < most_growth;
      }
    }
  }

  /// The nearest pairs first.
  void take_nearest() {
    taken_by_.assign(bodies_.size(), nobody);
    while (true) {
      double nearest = never;
      std::size_t open = nobody, body = nobody;
      for (std::size_t c = 0; c < open_.size(); ++c) {
        for (std::size_t b = 0; b < bodies_.size(); ++b) {
          if (open_[c].body != nobody || taken_by_[b] != nobody || !fits(c, b)) continue;
          if (cost(c, b) >= nearest) continue;
          nearest = cost(c, b);
          open = c;
          body = b;
        }
      }
      if (open == nobody) return;
      open_[open].body = body;
      taken_by_[body] = open;
    }
  }

  /// Whether it could as well be otherwise: the stretch goes on with another body, or its body
  /// belongs to another stretch, or two stretches have exchanged bodies.
  bool in_doubt(std::size_t open) {
    const std::size_t body = open_[open].body;
    const double here = cost(open, body);
    for (std::size_t b = 0; b < bodies_.size(); ++b) {
      if (b == body) continue;
      const std::size_t other = taken_by_[b];
      const double exchanged = other == nobody ? cost(open, b) : cost(open, b) + cost(other, body);
      const double as_is = other == nobody ? here : here + cost(other, b);
      if (exchanged < as_is + clear) return true;
    }
    for (std::size_t c = 0; c < open_.size(); ++c) {
      // One that ended before this one began may be the same person.
      if (c == open || open_[c].body != nobody || !were_together(open, c)) continue;
      if (cost(c, body) < here + clear) return true;
    }
    return false;
  }

  bool were_together(std::size_t a, std::size_t b) const {
    const auto last = [&](std::size_t c) { return out_[open_[c].tracklet].seen.back().frame; };
    return open_[a].since <= last(b) && open_[b].since <= last(a);
  }

  /// A body in doubt is a stretch of its own that does not go on: which it belongs to is seen
  /// later, if at all.
  void extend(std::size_t frame, const std::vector<bool>& doubtful) {
    for (std::size_t b = 0; b < bodies_.size(); ++b) {
      const At at{frame, bodies_[b]};
      if (taken_by_[b] == nobody || doubtful[b]) {
        out_.push_back({{at}, {}, {}, 0});
        if (!doubtful[b])
          open_.push_back({out_.size() - 1, frame, end_of(sightings_, {at}, true), nobody});
        continue;
      }
      Open& open = open_[taken_by_[b]];
      auto& seen = out_[open.tracklet].seen;
      seen.push_back(at);
      open.end = end_of(sightings_, seen, true);
    }
  }

  void finish(Tracklet& tracklet) const {
    tracklet.first = end_of(sightings_, tracklet.seen, false);
    tracklet.last = end_of(sightings_, tracklet.seen, true);
    for (const At& at : tracklet.seen) tracklet.height_px += sightings_.shape(at).height_px;
    tracklet.height_px /= static_cast<double>(tracklet.seen.size());
  }

  const Sightings& sightings_;
  std::vector<Open> open_;
  std::vector<std::size_t> bodies_;    ///< of this frame
  std::vector<std::size_t> taken_by_;  ///< by which open stretch each is
  std::vector<double> cost_;
  std::vector<bool> fits_;
  std::vector<Tracklet> out_;
};

}  // namespace

Sightings sightings_of(const intake::Film& film, std::optional<double> rate_hz) {
  Sightings out;
  std::vector<double> stamps, numbers;
  for (const auto& frame : film.frames) {
    auto& shapes = out.frames.emplace_back();
    for (const auto& person : frame.people) shapes.push_back(shape_of(person));
    numbers.push_back(static_cast<double>(frame.number));
    if (frame.time) stamps.push_back(frame.time->in_seconds());
  }
  double step = 0;
  if (stamps.size() == film.frames.size()) out.when = in_steps(stamps, step);
  const double stamped_s = step;
  if (stamped_s == 0) out.when = in_steps(numbers, step);
  const std::optional<double> step_s = rate_hz && *rate_hz > 0 ? std::optional(1 / *rate_hz)
                                       : stamped_s > 0         ? std::optional(stamped_s)
                                                               : std::nullopt;
  // Slower films than this are taken for films of this rate: people don't move farther.
  constexpr double shortest_s = 1.0 / 240, longest_s = 1.0 / 8;
  if (step_s) out.step_s = std::clamp(*step_s, shortest_s, longest_s);
  return out;
}

std::vector<Tracklet> tracklets_of(const Sightings& sightings) { return Linker(sightings).run(); }

}  // namespace rangecheck::pose
