// SPDX-License-Identifier: MIT
#include "motion/search.hpp"

#include <algorithm>
#include <cmath>
#include <span>

namespace rangecheck::motion {
namespace {

/// What makes a movement a swing, by how far it reaches. Common practice, no source; made-up and
/// rendered golfers stay within all of it, walking, reaching, squatting and waving people do not.
struct Shape {
  double turns_m;    ///< hands turn round when they come back by so much
  double aside_m;    ///< seen from the front they go away from the target and past the ball
  double shoulders;  ///< the picture of the line between the shoulders changes by so many metres
  bool chest;        ///< at the top and through, hands are half-way from hips to shoulders
};
constexpr Shape shape_of(Reach reach) {
  switch (reach) {
    case Reach::full:
      return {0.35, 0.15, 0.10, true};
    case Reach::part:
      return {0.08, 0.10, 0, false};
    case Reach::stroke:
      break;
  }
  return {0.04, 0.04, 0, false};
}

/// Shares of the way from hips to shoulders: of hands in a full swing's top and finish at least, at
/// impact at most, in a short swing's top at most.
constexpr double chest = 0.4, low_enough = 0.35, over_shoulders = 1.45;
/// Coming down takes less than this share of going back, and is this much faster, by what shows:
/// from behind hands leave along the line of sight, and half of the way down is hidden in it too;
/// short swings are more even.
struct Pace {
  double shorter, faster;
};
constexpr Pace from_front{0.7, 1.2}, from_behind{0.85, 1.0};
/// Both hands are on one club.
constexpr double together_m = 0.33;
/// Feet that go farther than this walk.
constexpr double steps_m = 0.30;
/// Hips that sink or rise farther than this squat.
constexpr double squats_m = 0.20;
/// A movement slower than this share of the fastest is a rehearsal.
constexpr double as_fast = 0.75;
/// Hands rest when they stay within this for so long: three times the usual jitter.
constexpr double rest_m = 0.02, rest_s = 0.2;
/// Slower than this hands rest too, where they never do for long.
constexpr double rest_m_s = 0.15;
/// A film that ends while the hands go faster than this share of the fastest ends in the swing.
constexpr double still_going = 0.3;

struct Turn {
  std::size_t at;
  bool high;
};

/// Where the signal turns round by at least `least`: alternately high and low, ends included.
std::vector<Turn> turns_of(const std::vector<double>& values, double least) {
  std::vector<Turn> out;
  std::size_t low = 0, high = 0;
  const auto turn = [&](std::size_t at, bool is_high, std::size_t now) {
    out.push_back({at, is_high});
    low = high = now;
  };
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (values[i] > values[high]) high = i;
    if (values[i] < values[low]) low = i;
    const bool may_be_high = out.empty() || !out.back().high;
    const bool may_be_low = out.empty() || out.back().high;
    if (may_be_high && values[high] - values[i] >= least) {
      turn(high, true, i);
    } else if (may_be_low && values[i] - values[low] >= least) {
      turn(low, false, i);
    }
  }
  if (!out.empty()) out.push_back(out.back().high ? Turn{low, false} : Turn{high, true});
  return out;
}

double highest(const Signal& signal, std::size_t from, std::size_t to) {
  const auto begin = signal.value.begin();
  return *std::max_element(begin + static_cast<std::ptrdiff_t>(from),
                           begin + static_cast<std::ptrdiff_t>(to) + 1);
}

double lowest(const Signal& signal, std::size_t from, std::size_t to) {
  const auto begin = signal.value.begin();
  return *std::min_element(begin + static_cast<std::ptrdiff_t>(from),
                           begin + static_cast<std::ptrdiff_t>(to) + 1);
}

double range(const Signal& signal, std::size_t from, std::size_t to) {
  return highest(signal, from, to) - lowest(signal, from, to);
}

/// Median of what is known between two samples, or nothing.
std::optional<double> usual(const Signal& signal, std::size_t from, std::size_t to) {
  std::vector<double> values;
  for (std::size_t i = from; i <= to; ++i) {
    if (signal.known[i]) values.push_back(signal.value[i]);
  }
  if (values.empty()) return std::nullopt;
  const auto half = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), half, values.end());
  return *half;
}

/// The last sample before `away` at which the hands rest; not before `earliest`.
std::optional<std::size_t> rest_before(const Signals& signals, std::size_t away,
                                       std::size_t earliest) {
  const std::size_t span = std::max<std::size_t>(2, signals.count(rest_s));
  for (std::size_t end = away; end >= earliest + span; --end) {
    if (range(signals.x_m, end - span, end) <= rest_m &&
        range(signals.y_m, end - span, end) <= rest_m)
      return end;
  }
  const auto begin = signals.speed_m_s.value.begin();
  const auto slowest = std::min_element(begin + static_cast<std::ptrdiff_t>(earliest),
                                        begin + static_cast<std::ptrdiff_t>(away));
  if (slowest == begin + static_cast<std::ptrdiff_t>(away) || *slowest > rest_m_s)
    return std::nullopt;
  return static_cast<std::size_t>(slowest - begin);
}

/// Looks at one place after the other of a film.
class Search {
 public:
  Search(const Signals& signals, intake::View view, Reach reach)
      : signals_(signals),
        front_(view == intake::View::face_on),
        shape_(shape_of(reach)),
        // A swing that stays low shows from the front how far aside the hands are; from the side
        // and for a full swing how high.
        back_(front_ && reach != Reach::full ? toward_trail(signals.x_m) : signals.y_m),
        by_height_(!front_ || reach == Reach::full) {}

  std::vector<Movement> all() const {
    std::vector<Movement> out;
    const auto turns = turns_of(back_.value, shape_.turns_m);
    for (std::size_t i = 0; i < turns.size(); ++i) {
      if (!turns[i].high || i + 1 == turns.size()) continue;
      const std::size_t before = i == 0 ? 0 : turns[i - 1].at;
      const auto found = at_turn(
          i > 0, i < 2 ? 0 : turns[i - 2].at, before, turns[i].at, turns[i + 1].at,
          i + 2 < turns.size() ? turns[i + 2].at : signals_.samples - 1, i + 2 < turns.size());
      if (!found) continue;
      out.push_back(*found);
      if (by_height_ && i + 2 < turns.size()) ++i;  // its own follow-through is no backswing
    }
    return out;
  }

 private:
  static Signal toward_trail(Signal x_m) {
    for (double& each : x_m.value) each = -each;
    return x_m;
  }

  std::optional<Movement> at_turn(bool begins, std::size_t earliest, std::size_t before,
                                  std::size_t top, std::size_t next, std::size_t after,
                                  bool turned_again) const {
    Movement out;
    out.top = top;
    const std::size_t last = signals_.samples - 1;
    // Not the lowest sample itself: an estimator that settles has wild first frames.
    const double level =
        usual(back_, before, std::min(before + signals_.count(rest_s), top)).value_or(0);
    const double rise = back_.value[top] - level;
    out.away = before;
    if (begins) {
      out.away = top;
      while (out.away > before && back_.value[out.away] > level + 0.25 * rise) --out.away;
      out.rest = rest_before(signals_, out.away, earliest);
    }
    if (by_height_) {
      out.low = next;
      out.through = after;
      out.ends_early = !turned_again;
    } else {
      const double home = out.rest ? back_.value[*out.rest] : back_.value[before];
      const auto passed = crossing(back_, home, top, next);
      if (passed) out.low = static_cast<std::size_t>(std::lround(*passed));
      out.through = next;
      out.ends_early = next == last;
      if (!out.low && !out.ends_early) return std::nullopt;
    }
    const std::size_t down_end = out.low.value_or(last);
    out.speed_m_s = highest(signals_.speed_m_s, top, down_end);
    if (out.ends_early) {
      // A film that ends while the hands are fast, or seen from behind have just turned up again,
      // ends in the swing; else they came to rest low.
      const bool fast = signals_.speed_m_s.value[last] >= still_going * out.speed_m_s;
      const bool just_passed = !front_ && out.low && 2 * (last - *out.low) <= *out.low - top;
      if (!fast && !just_passed) return std::nullopt;
      if (out.low && *out.low + 1 >= last) out.low.reset();
      out.through = last;
    }
    if (!plausible(out)) return std::nullopt;
    return out;
  }

  bool plausible(const Movement& m) const {
    const std::size_t end = m.low.value_or(signals_.samples - 1);
    if (m.top <= m.away + 1 && m.rest) return false;
    if (m.rest) {
      const auto back = static_cast<double>(m.top - *m.rest),
                 down = static_cast<double>(end - m.top);
      const Pace pace = front_ && shape_.chest ? from_front : from_behind;
      if (m.low && down > pace.shorter * back) return false;
      if (m.speed_m_s < pace.faster * highest(signals_.speed_m_s, *m.rest, m.top)) return false;
    }
    const std::size_t begin = m.rest.value_or(m.away);
    const auto apart = usual(signals_.apart_m, begin, m.through);
    if (apart && *apart > together_m) return false;
    if (range(signals_.feet_x_m, begin, end) > steps_m) return false;
    if (range(signals_.hip_m, begin, end) > squats_m) return false;
    // A short swing has little of a swing's shape: it must be there from rest to end.
    if (!shape_.chest && (!m.rest || !m.low)) return false;
    return is_high_and_low(m, end) && goes_aside(m, begin, end) && turns(m, begin, end) &&
           passes(m);
  }

  bool is_high_and_low(const Movement& m, std::size_t end) const {
    const auto above_hips = [&](std::size_t i) {
      const double hip = signals_.hip_m.value[i];
      return (signals_.y_m.value[i] - hip) / std::max(0.1, signals_.shoulder_m.value[i] - hip);
    };
    if (m.low && above_hips(end) > low_enough) return false;
    if (!shape_.chest) return above_hips(m.top) < over_shoulders;
    if (above_hips(m.top) < chest) return false;
    return m.ends_early || above_hips(m.through) >= chest;
  }

  bool goes_aside(const Movement& m, std::size_t begin, std::size_t end) const {
    if (!front_) return true;
    const auto& x = signals_.x_m;
    const double home = m.low ? x.value[end] : x.value[begin];
    if (lowest(x, begin, end) > home - shape_.aside_m) return false;
    return m.ends_early || highest(x, end, m.through) >= home + shape_.aside_m;
  }

  /// Seen from the front the line between the shoulders shortens going back; from the side the
  /// trail shoulder goes behind the lead one.
  bool turns(const Movement& m, std::size_t begin, std::size_t end) const {
    if (!signals_.turn_m.any() || shape_.shoulders == 0) return true;
    const auto& turn = signals_.turn_m.value;
    // At impact the shoulders are half-way round already.
    const double change = turn[m.top] - (m.rest ? turn[begin] : turn[end]);
    return (front_ ? -change : change) > (m.rest ? 1 : 0.6) * shape_.shoulders;
  }

  /// Hands pass the low place; they do not stay there.
  bool passes(const Movement& m) const {
    if (!m.low || !by_height_) return true;
    const auto& y = signals_.y_m.value;
    const double near = y[*m.low] + 0.15 * (y[m.top] - y[*m.low]);
    std::size_t begin = *m.low, end = *m.low;
    while (begin > m.top && y[begin] < near) --begin;
    while (end < m.through && y[end] < near) ++end;
    return 2 * (end - begin) <= 3 * (*m.low - m.top);
  }

  const Signals& signals_;
  bool front_;
  Shape shape_;
  Signal back_;  ///< high when the hands are back
  bool by_height_;
};

}  // namespace

Reach reach_of(std::string_view kind) {
  if (kind == "putt") return Reach::stroke;
  if (kind == "pitch" || kind == "chip") return Reach::part;
  return Reach::full;
}

std::vector<Movement> movements_like_swings(const Signals& signals, intake::View view,
                                            Reach reach) {
  // A putt goes along the line of sight of a camera behind the golfer.
  if (reach == Reach::stroke && view != intake::View::face_on) return {};
  return Search(signals, view, reach).all();
}

std::size_t real_one(const std::vector<Movement>& movements) {
  double fastest = 0;
  for (const auto& each : movements) fastest = std::max(fastest, each.speed_m_s);
  std::size_t out = 0;
  for (std::size_t i = 0; i < movements.size(); ++i) {
    if (movements[i].speed_m_s >= as_fast * fastest) out = i;
  }
  return out;
}

}  // namespace rangecheck::motion
