// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>

#include "motion/moments.hpp"
#include "motion/usual.hpp"

namespace rangecheck::motion {
namespace {

using enum Position;

/// A sign that leaves a moment open by more tells nothing.
constexpr double useless_s = 0.3;

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
    out[impact] = strike();
    for (const Usual& each : reach_ == Reach::full ? usual : usual_of_short)
      out[each.position] = between(each, out);
    out[trail_arm_parallel_through] = arm_through(out);
    out[shaft_parallel_through] = shaft_through(out);
    if (reach_ != Reach::full && home_.height(s_.y_m.value[m_.top]) < shaft_level_height) {
      out[shaft_parallel_back].reset();
      out[shaft_parallel_down].reset();
    }
    out[finish] = end(out);
    return out;
  }

 private:
  Guess at(double place, double u_s) const {
    const double gap_s = s_.step_s * std::max(0.0, s_.x_m.from_known(place) - 0.5);
    return {s_.time_s(place), std::hypot(u_s, 0.2 * s_.step_s, gap_s), false};
  }
  std::size_t view() const { return front_ ? 0 : 1; }
  double dullness() const { return dull[static_cast<std::size_t>(reach_)]; }
  double place(const Guess& guess) const { return (guess.time_s - s_.start_s) / s_.step_s; }
  std::size_t sample(const Guess& guess) const {
    return static_cast<std::size_t>(
        std::clamp(std::lround(place(guess)), 0L, static_cast<long>(s_.samples) - 1));
  }

  /// The takeaway grows about like a power of time: from when hands and arms have clearly left
  /// their place, and when they are much farther, back to when they set off.
  std::optional<Guess> start() const {
    if (!m_.rest) return std::nullopt;
    const Takeaway& takeaway = takeaways[view()][s_.has_club() ? 1 : 0];
    auto far = settled_departure(takeaway.clearly);
    const auto farthest = [&] {
      const auto begin = far.value.begin();
      return *std::max_element(begin + static_cast<std::ptrdiff_t>(*m_.rest),
                               begin + static_cast<std::ptrdiff_t>(m_.top) + 1);
    };
    // A short swing may never go as far as full ones are best looked at.
    constexpr double near_share = 0.1, far_share = 0.6, least = 4;
    const double clearly = std::clamp(near_share * farthest(), least, takeaway.clearly);
    if (clearly < takeaway.clearly) far = settled_departure(clearly);
    const double farther = std::min(takeaway.farther, far_share * farthest());
    const auto first = crossing(far, clearly, m_.top, 0);
    const auto second = crossing(far, farther, m_.top, 0);
    if (!first || !second || farther < 1.5 * clearly)
      return at(static_cast<double>(*m_.rest), unsure_start_u_s);
    const double back = (*second - *first) / (std::pow(farther / clearly, 1 / takeaway.power) - 1);
    return at(std::max(0.0, *first - back), takeaway.u_s * dullness());
  }

  /// From the place in which the hands rest just before they set off, which is known only when it
  /// is known when they do.
  Signal settled_departure(double clearly) const {
    constexpr double over_s = 0.4, before_s = 0.1;
    std::size_t end = *m_.rest - std::min(*m_.rest, s_.count(before_s));
    for (int round = 0; round < 2; ++round) {
      const auto far = departure(s_, end - std::min(end, s_.count(over_s)), end);
      const auto left = crossing(far, clearly, m_.top, 0);
      if (!left) return far;
      const auto sample = static_cast<std::size_t>(*left);
      end = std::max<std::size_t>(1, sample - std::min(sample, s_.count(before_s)));
    }
    return departure(s_, end - std::min(end, s_.count(over_s)), end);
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
    const Spread later_s = turns_later_s[view()];
    return at(turned + later_s.mean / s_.step_s, later_s.sd * dullness());
  }

  std::optional<Guess> strike() const {
    if (!m_.low) return std::nullopt;
    std::vector<Guess> signs;
    if (front_) {
      const std::size_t reach = s_.count(0.15), from = *m_.low - std::min(*m_.low, reach),
                        to = std::min(*m_.low + reach, s_.samples - 1);
      const Spread ahead = ahead_m[static_cast<std::size_t>(reach_)];
      add_passing(signs, s_.x_m, home_.x_m + ahead.mean, ahead.sd, from, to);
    }
    if (reach_ == Reach::full || !front_) {
      const double lowest = turning_place(s_.y_m.value, *m_.low, s_.count(0.04));
      const Spread before_s = lowest_before_s[view()];
      signs.push_back(at(lowest + before_s.mean / s_.step_s, before_s.sd * dullness()));
    }
    return together(signs);
  }

  /// A position on the way back or down, by its share of the time, by the height of the hands and
  /// by the arm.
  std::optional<Guess> between(const Usual& usual, const Guesses& known) const {
    const bool back = usual.position < top;
    const auto &first = known[back ? address : top], &second = known[back ? top : impact];
    std::vector<Guess> signs;
    if (first && second) {
      const double whole_s = second->time_s - first->time_s;
      const double u_s = std::hypot(usual.share.sd * whole_s, (1 - usual.share.mean) * first->u_s,
                                    usual.share.mean * second->u_s);
      signs.push_back({first->time_s + usual.share.mean * whole_s, u_s, false});
    }
    if (second && usual.height) {
      // Both sides are looked through from the top down.
      const std::size_t from = sample(back ? *second : *first);
      const std::size_t to = back ? (m_.rest ? *m_.rest : 0) : sample(*second);
      add_passing(signs, s_.y_m, level((*usual.height)[view()].mean),
                  (*usual.height)[view()].sd * (home_.shoulder_m - home_.y_m), from, to);
      const Spread arm = (*usual.arm_m)[view()];
      add_passing(signs, front_ ? s_.lead_m : s_.trail_m, arm.mean, arm.sd, from, to);
      if (signs.size() == (first && second ? 1 : 0)) signs.clear();  // it does not reach so far
    }
    return together(signs);
  }

  std::optional<Guess> arm_through(const Guesses& known) const {
    if (!known[impact]) return std::nullopt;
    std::vector<Guess> signs;
    const std::size_t from = sample(*known[impact]), to = m_.through;
    if (to <= from) return std::nullopt;
    const Spread height = through_height[view()], arm = through_arm_m[view()];
    const double wider = reach_ == Reach::full ? 1 : 1.5;
    add_passing(signs, s_.trail_m, arm.mean, wider * arm.sd, from, to);
    add_passing(signs, s_.y_m, level(height.mean),
                wider * height.sd * (home_.shoulder_m - home_.y_m), from, to);
    return together(signs);
  }

  std::optional<Guess> shaft_through(const Guesses& known) const {
    const auto &arm = known[trail_arm_parallel_through], &hit = known[impact];
    if (!arm || !hit) return std::nullopt;
    const Spread before_s =
        reach_ == Reach::full ? shaft_before_arm_s : shaft_before_arm_of_short_s;
    const double time_s =
        std::max(arm->time_s - before_s.mean, (arm->time_s + 2 * hit->time_s) / 3);
    return Guess{time_s, std::hypot(arm->u_s, before_s.sd), false};
  }

  /// Where a signal is at a level that is known so well.
  Guess passing(double place, const Signal& signal, double u_m) const {
    return at(place, std::abs(u_m * s_.step_s / signal.slope(place)));
  }
  void add_passing(std::vector<Guess>& signs, const Signal& signal, double level_m, double u_m,
                   std::size_t from, std::size_t to) const {
    if (!signal.any()) return;
    const auto passed = crossing(signal, level_m, from, to);
    if (!passed || std::abs(signal.slope(*passed)) * useless_s < u_m * s_.step_s) return;
    signs.push_back(passing(*passed, signal, u_m));
  }

  double level(double height) const { return home_.y_m + height * (home_.shoulder_m - home_.y_m); }

  std::optional<Guess> end(const Guesses& known) const {
    if (!known[impact] || m_.ends_early) return std::nullopt;
    constexpr double over_s = 0.2;
    const std::size_t half = s_.count(over_s / 2);
    const bool arm_rose = known[trail_arm_parallel_through].has_value();
    const std::size_t from = arm_rose                ? sample(*known[trail_arm_parallel_through])
                             : reach_ == Reach::full ? m_.through
                                                     : sample(*known[impact]);
    // Over longer than elsewhere: at this speed jitter is much.
    Signal speed = s_.speed_m_s;
    for (std::size_t i = half; i + half < s_.samples; ++i) {
      speed.value[i] = std::hypot(s_.x_m.value[i + half] - s_.x_m.value[i - half],
                                  s_.y_m.value[i + half] - s_.y_m.value[i - half]) /
                       (static_cast<double>(2 * half) * s_.step_s);
    }
    const std::size_t last = s_.samples - 1;
    const auto slow = speed.value[from] < finish_m_s
                          ? std::optional(static_cast<double>(from))
                          : crossing(speed, finish_m_s, from, last - std::min(last - from, half));
    if (!slow) return std::nullopt;
    const Spread after_s = reach_ == Reach::full ? finish_after_s
                           : arm_rose            ? finish_after_short_s
                                                 : finish_after_low_s;
    const Spread later_s = finish_later_s[view()];
    const double doubt = std::max(1.0, sure_hands / std::max(0.05, s_.sure.at(*slow)));
    return together({at(*slow + later_s.mean / s_.step_s, later_s.sd * doubt * doubt * dullness()),
                     {known[impact]->time_s + after_s.mean, after_s.sd, false}});
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

Signal departure(const Signals& signals, std::size_t begin, std::size_t end) {
  constexpr double least_jitter_m = 0.003;
  Signal out;
  out.value.assign(signals.samples, 0);
  out.known.assign(signals.samples, true);
  auto all = signals.body_m;
  if (signals.has_club()) {
    all.push_back(signals.head_x_m);
    all.push_back(signals.head_y_m);
  }
  const auto n = static_cast<double>(end - begin + 1);
  for (const Signal& each : all) {
    double mean = 0, square = 0;
    for (std::size_t i = begin; i <= end; ++i) mean += each.value[i] / n;
    for (std::size_t i = begin; i <= end; ++i) square += std::pow(each.value[i] - mean, 2) / n;
    const double jitter_m = std::max(least_jitter_m, std::sqrt(square));
    for (std::size_t i = 0; i < signals.samples; ++i)
      out.value[i] += std::pow((each.value[i] - mean) / jitter_m, 2);
  }
  const auto points = static_cast<double>(all.size());
  for (double& each : out.value) each = std::sqrt(std::max(0.0, each - points));
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
