// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>

#include "motion/moments.hpp"

namespace rangecheck::motion {
namespace {

using enum Position;

/// A number and how far it spreads over golfers and films.
struct Spread {
  double mean, sd;
};

/// What is usual at a position: calibrated on made-up swings and checked on rendered films. Both
/// are models and no people, so the spreads are a little wider than was found.
struct Usual {
  Position position;
  Spread share;      ///< of the time between the positions that it lies between
  Spread height[2];  ///< of the hands (Home::height), seen from the front and from behind
  Spread arm_m[2];   ///< wrist above shoulder, of the arm that defines the position or the near one
};

constexpr Usual usual[] = {
    {shaft_parallel_back, {0.47, 0.05}, {{0.33, 0.08}, {0.35, 0.08}}, {}},
    {lead_arm_parallel_back,
     {0.64, 0.05},
     {{0.80, 0.10}, {0.85, 0.10}},
     {{-0.03, 0.03}, {-0.05, 0.06}}},
    {lead_arm_parallel_down,
     {0.58, 0.05},
     {{0.80, 0.10}, {0.80, 0.10}},
     {{-0.03, 0.03}, {0, 0.06}}},
    {shaft_parallel_down, {0.827, 0.04}, {{0.3, 0.08}, {0.35, 0.08}}, {}},
    {shaft_parallel_through, {0.6, 0.08}, {{0.6, 0.10}, {0.6, 0.10}}, {}},
    {trail_arm_parallel_through,
     {0.75, 0.1},
     {{0.85, 0.1}, {0.85, 0.1}},
     {{-0.03, 0.03}, {-0.03, 0.04}}},
};

/// Lowest place of a parabola through the samples within `reach` of `about`.
double turning_place(const std::vector<double>& values, std::size_t about, std::size_t reach) {
  const std::size_t begin = about - std::min(about, reach),
                    end = std::min(about + reach, values.size() - 1);
  // Least squares of v = a + b t + c t² about the middle of the stretch.
  double n = 0, t2 = 0, t4 = 0, v0 = 0, v1 = 0, v2 = 0;
  const double middle = static_cast<double>(begin + end) / 2;
  for (std::size_t i = begin; i <= end; ++i) {
    const double t = static_cast<double>(i) - middle;
    n += 1;
    t2 += t * t;
    t4 += t * t * t * t;
    v0 += values[i];
    v1 += values[i] * t;
    v2 += values[i] * t * t;
  }
  const double c = (n * v2 - t2 * v0) / (n * t4 - t2 * t2), b = v1 / t2;
  if (!(c > 0)) return static_cast<double>(about);
  return std::clamp(middle - b / (2 * c), static_cast<double>(begin), static_cast<double>(end));
}

class Timer {
 public:
  Timer(const Signals& signals, intake::View view, Reach reach, const Movement& movement)
      : s_(signals),
        front_(view == intake::View::face_on),
        reach_(reach),
        m_(movement),
        home_(home_of(signals, movement)) {}

  Guesses all() const {
    Guesses out;
    out[address] = start();
    out[top] = turn();
    out[impact] = strike(out);
    for (const Usual& each : usual) out[each.position] = between(each, out);
    out[finish] = end(out);
    return out;
  }

 private:
  Guess at(double place, double u_s) const {
    const double gap_s = s_.step_s * std::max(0.0, s_.x_m.from_known(place) - 0.5);
    return {s_.time_s(place), std::hypot(u_s, 0.2 * s_.step_s, gap_s), false};
  }
  double place(const Guess& guess) const { return (guess.time_s - s_.start_s) / s_.step_s; }
  std::size_t sample(const Guess& guess) const {
    return static_cast<std::size_t>(
        std::clamp(std::lround(place(guess)), 0L, static_cast<long>(s_.samples) - 1));
  }

  /// The takeaway grows about like a power of time: from when hands and arms have clearly left
  /// their place, and when they are four times as far, back to when they set off.
  std::optional<Guess> start() const {
    if (!m_.rest) return std::nullopt;
    constexpr double clearly = 6, farther = 4, power = 2.5;
    const auto far = departure();
    const auto when = [&](double level) { return crossing(far, level, m_.top, 0); };
    const auto first = when(clearly), second = when(clearly * farther);
    if (!first || !second) return std::nullopt;
    const double back = (*second - *first) / (std::pow(farther, 1 / power) - 1);
    return at(std::max(0.0, *first - back), 0.5 * back * s_.step_s);
  }

  /// How far hands, arms and shoulders are from where they rest, over their jitter there.
  Signal departure() const {
    constexpr double least_jitter_m = 0.003, over_s = 0.3;
    const std::size_t end = *m_.rest, begin = end - std::min(end, s_.count(over_s));
    Signal out;
    out.value.assign(s_.samples, 0);
    out.known.assign(s_.samples, true);
    auto signals = s_.body_m;
    if (s_.has_club()) {
      signals.push_back(s_.head_x_m);
      signals.push_back(s_.head_y_m);
    }
    for (const Signal& each : signals) {
      double mean = 0, square = 0;
      for (std::size_t i = begin; i <= end; ++i) mean += each.value[i];
      mean /= static_cast<double>(end - begin + 1);
      for (std::size_t i = begin; i <= end; ++i)
        square += (each.value[i] - mean) * (each.value[i] - mean);
      const double jitter_m =
          std::max(least_jitter_m, std::sqrt(square / static_cast<double>(end - begin + 1)));
      for (std::size_t i = 0; i < s_.samples; ++i)
        out.value[i] += std::pow((each.value[i] - mean) / jitter_m, 2);
    }
    const auto points = static_cast<double>(signals.size());
    for (double& each : out.value) each = std::sqrt(std::max(0.0, each - points));
    return out;
  }

  /// Hands turn round: least far along the way that they then come down.
  std::optional<Guess> turn() const {
    const std::size_t bottom = m_.low.value_or(s_.samples - 1);
    std::size_t down = m_.top;
    const double x0 = s_.x_m.value[m_.top], y0 = s_.y_m.value[m_.top];
    const double whole = std::hypot(s_.x_m.value[bottom] - x0, s_.y_m.value[bottom] - y0);
    const auto gone = [&](std::size_t i) {
      return std::hypot(s_.x_m.value[i] - x0, s_.y_m.value[i] - y0);
    };
    while (down < bottom && gone(down) < 0.25 * whole) ++down;
    const double dx = s_.x_m.value[down] - x0, dy = s_.y_m.value[down] - y0;
    const std::size_t begin = m_.away;
    std::vector<double> along;
    for (std::size_t i = begin; i <= down; ++i)
      along.push_back((s_.x_m.value[i] - x0) * dx + (s_.y_m.value[i] - y0) * dy);
    const std::size_t back = std::min(along.size() - 1, down - m_.top + (m_.top - m_.away) / 2);
    const auto from = along.end() - 1 - static_cast<std::ptrdiff_t>(back);
    const auto least =
        static_cast<std::size_t>(std::min_element(from, along.end()) - along.begin());
    const double turned = static_cast<double>(begin) + turning_place(along, least, s_.count(0.05));
    return at(turned, 0.015);
  }

  std::optional<Guess> strike(const Guesses&) const {
    if (!m_.low) return std::nullopt;
    std::vector<Guess> signs;
    if (front_) {
      constexpr Spread ahead_m{0.03, 0.03};
      const std::size_t from = *m_.low - std::min(*m_.low, s_.count(0.15)),
                        to = std::min(*m_.low + s_.count(0.15), s_.samples - 1);
      if (const auto passed = crossing(s_.x_m, home_.x_m + ahead_m.mean, from, to))
        signs.push_back(at(*passed, std::abs(ahead_m.sd * s_.step_s / s_.x_m.slope(*passed))));
    }
    if (reach_ == Reach::full) {
      const double lowest = turning_place(s_.y_m.value, *m_.low, s_.count(0.04));
      signs.push_back(at(lowest, 0.02));
    }
    return together(signs);
  }

  /// A position between two that are known, by its share of the time, by the height of the hands
  /// and by the arm.
  std::optional<Guess> between(const Usual& usual, const Guesses& known) const {
    const bool back = usual.position<top, through = usual.position> impact;
    const auto &first = known[back      ? address
                              : through ? impact
                                        : top],
               &second = known[back ? top : impact];
    if (!second || (!through && !first)) return std::nullopt;
    std::vector<Guess> signs;
    const std::size_t from = first ? sample(*first) : m_.away;
    const std::size_t to = through ? std::max(m_.through, sample(*second)) : sample(*second);
    // Rising sides are looked through from below, the falling one from above.
    const int view = front_ ? 0 : 1;
    const Spread height = usual.height[view];
    if (const auto passed = back ? crossing(s_.y_m, level(height.mean), to, from)
                                 : crossing(s_.y_m, level(height.mean), from, to))
      signs.push_back(at(*passed, std::abs(height.sd * (home_.shoulder_m - home_.y_m) * s_.step_s /
                                           s_.y_m.slope(*passed))));
    const Spread arm = usual.arm_m[view];
    if (arm.sd > 0) {
      const bool lead_arm = front_ && !through;
      const Signal& above = lead_arm ? s_.lead_m : s_.trail_m;
      if (const auto passed =
              back ? crossing(above, arm.mean, to, from) : crossing(above, arm.mean, from, to))
        signs.push_back(at(*passed, std::abs(arm.sd * s_.step_s / above.slope(*passed))));
    }
    if (signs.empty()) return std::nullopt;
    if (known[top]) {
      const double whole_s =
          through ? known[impact]->time_s - known[top]->time_s : second->time_s - first->time_s;
      signs.push_back(
          {(through ? known[impact]->time_s : first->time_s) + usual.share.mean * whole_s,
           usual.share.sd * whole_s, false});
    }
    return together(signs);
  }

  double level(double height) const { return home_.y_m + height * (home_.shoulder_m - home_.y_m); }

  std::optional<Guess> end(const Guesses& known) const {
    if (!known[impact] || m_.ends_early) return std::nullopt;
    constexpr double still_m_s = 0.2;
    const std::size_t from =
        known[trail_arm_parallel_through] ? sample(*known[trail_arm_parallel_through]) : m_.through;
    for (std::size_t i = from; i < s_.samples; ++i) {
      if (s_.speed_m_s.value[i] < still_m_s) return at(static_cast<double>(i), 0.1);
    }
    return std::nullopt;
  }

  const Signals& s_;
  bool front_;
  Reach reach_;
  const Movement& m_;
  Home home_;
};

}  // namespace

std::optional<Guess> together(const std::vector<Guess>& signs) {
  if (signs.empty()) return std::nullopt;
  double weight = 0, sum = 0;
  bool from_club = true;
  for (const Guess& each : signs) {
    const double w = 1 / (each.u_s * each.u_s);
    weight += w;
    sum += w * each.time_s;
    from_club = from_club && each.from_club;
  }
  Guess out{sum / weight, 1 / std::sqrt(weight), from_club};
  double chi_square = 0;
  for (const Guess& each : signs) chi_square += std::pow((each.time_s - out.time_s) / each.u_s, 2);
  if (signs.size() > 1)
    out.u_s *= std::sqrt(std::max(1.0, chi_square / static_cast<double>(signs.size() - 1)));
  return out;
}

Home home_of(const Signals& signals, const Movement& movement) {
  constexpr double over_s = 0.2;
  // Without the rest before the swing the hands at impact stand for it: a little higher.
  constexpr double impact_above_rest_m = 0.05;
  Home out;
  if (movement.rest) {
    const std::size_t end = *movement.rest, begin = end - std::min(end, signals.count(over_s));
    const auto n = static_cast<double>(end - begin + 1);
    for (std::size_t i = begin; i <= end; ++i) {
      out.x_m += signals.x_m.value[i] / n;
      out.y_m += signals.y_m.value[i] / n;
      out.shoulder_m += signals.shoulder_m.value[i] / n;
    }
  } else {
    const std::size_t i = movement.low.value_or(movement.away);
    out = {signals.x_m.value[i], signals.y_m.value[i] - impact_above_rest_m,
           signals.shoulder_m.value[i]};
  }
  out.shoulder_m = std::max(out.shoulder_m, out.y_m + 0.2);
  return out;
}

Guesses moments_of_hands(const Signals& signals, intake::View view, Reach reach,
                         const Movement& movement) {
  return Timer(signals, view, reach, movement).all();
}

}  // namespace rangecheck::motion
