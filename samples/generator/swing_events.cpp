// SPDX-License-Identifier: MIT
// The moments of the positions, found on the continuous motion by their definitions.
#include <algorithm>
#include <functional>

#include "generator/swing_motion.hpp"

namespace rangecheck::samples {
namespace {

using Eigen::Vector3d;
using Function = std::function<double(double)>;

constexpr double step_s = 0.002;

enum class Crossing { up, down };

/// First moment in [from, to] at which a function crosses zero in one direction.
std::optional<double> first(const Function& function, Crossing crossing, double from_s,
                            double to_s) {
  const double sign = crossing == Crossing::up ? 1 : -1;
  double before = sign * function(from_s);
  for (double time_s = from_s; time_s < to_s; time_s += step_s) {
    const double end_s = std::min(time_s + step_s, to_s), after = sign * function(end_s);
    if (before <= 0 && after > 0) {
      double low = time_s, high = end_s;
      for (int halving = 0; halving < 60; ++halving) {
        const double middle = (low + high) / 2;
        (sign * function(middle) <= 0 ? low : high) = middle;
      }
      return (low + high) / 2;
    }
    before = after;
  }
  return std::nullopt;
}

/// Likewise the last one.
std::optional<double> last(const Function& function, Crossing crossing, double from_s,
                           double to_s) {
  std::optional<double> found;
  for (auto next = first(function, crossing, from_s, to_s); next;) {
    found = next;
    next = first(function, crossing, *next + step_s / 4, to_s);
  }
  return found;
}

/// Looks at one motion through what the definitions speak of.
struct Look {
  const SwingMotion& motion;

  double height(double time_s, Side side, Joint joint) const {
    return motion.points(time_s)[{side, joint}]->y();
  }
  /// Of the shaft's head end over its grip end.
  double shaft(double time_s) const { return motion.figure().shaft(motion.dofs(time_s)).y(); }
  /// Of the wrist over the shoulder.
  double arm(double time_s, Side side) const {
    return height(time_s, side, Joint::wrist) - height(time_s, side, Joint::shoulder);
  }
  double hands_mps(double time_s) const {
    constexpr double half_s = 1e-4;
    const auto at = [&](double when_s) { return *motion.points(when_s)[centre(Joint::hands_mid)]; };
    return (at(time_s + half_s) - at(time_s - half_s)).norm() / (2 * half_s);
  }
};

/// Where a function with one lowest point in [from, to] has it.
double lowest(const Function& function, double from_s, double to_s) {
  const double golden = (std::sqrt(5.0) - 1) / 2;
  while (to_s - from_s > 1e-7) {
    const double left = to_s - golden * (to_s - from_s), right = from_s + golden * (to_s - from_s);
    (function(left) < function(right) ? to_s : from_s) =
        function(left) < function(right) ? right : left;
  }
  return (from_s + to_s) / 2;
}

}  // namespace

double SwingMotion::top_of_hands() const {
  // The hands are slow only around the top; its coarse place first.
  const Look look{*this};
  const double from_s = timing_.at(0.7), to_s = timing_.at(1.4);
  double slowest_s = from_s;
  for (double time_s = from_s; time_s < to_s; time_s += step_s) {
    if (look.hands_mps(time_s) < look.hands_mps(slowest_s)) slowest_s = time_s;
  }
  return lowest([&](double time_s) { return look.hands_mps(time_s); }, slowest_s - step_s,
                slowest_s + step_s);
}

PositionMap<double> SwingMotion::events(TopOf top_of) const {
  const Look look{*this};
  const double end_s = timing_.end_s();
  const auto shaft = [&](double time_s) { return look.shaft(time_s); };
  const auto lead_arm = [&](double time_s) { return look.arm(time_s, Side::lead); };
  const auto trail_arm = [&](double time_s) { return look.arm(time_s, Side::trail); };
  const auto& club_back = path(Dof::club_back).through;
  const auto back_speed = [&](double time_s) { return club_back.speed(time_s); };
  const double ball_x = figure_.golfer().points[centre(Joint::hosel)]->x();
  const auto past_ball = [&](double time_s) {
    return points(time_s)[centre(Joint::hosel)]->x() - ball_x;
  };

  PositionMap<double> events;
  events[Position::address] = 0;
  const auto club_turns = first(back_speed, Crossing::down, timing_.at(0.5), end_s);
  const auto hit = first(past_ball, Crossing::up, timing_.at(1.3), end_s);
  if (!club_turns || !hit) return events;  // no swing at all
  const double club_top = *club_turns, hands_top = top_of_hands(), impact = *hit;
  events[Position::top] = top_of == TopOf::club ? club_top : hands_top;
  events[Position::impact] = impact;
  // Both turn round at about the same time: what lies before either is going back.
  events[Position::shaft_parallel_back] = first(shaft, Crossing::up, 0, club_top);
  events[Position::lead_arm_parallel_back] = first(lead_arm, Crossing::up, 0, hands_top);
  events[Position::lead_arm_parallel_down] = last(lead_arm, Crossing::down, hands_top, impact);
  events[Position::shaft_parallel_down] = last(shaft, Crossing::down, club_top, impact);
  events[Position::shaft_parallel_through] = first(shaft, Crossing::up, impact, end_s);
  events[Position::trail_arm_parallel_through] = first(trail_arm, Crossing::up, impact, end_s);
  const double through_s = events[Position::trail_arm_parallel_through].value_or(impact);
  events[Position::finish] = first([&](double time_s) { return look.hands_mps(time_s) - 0.2; },
                                   Crossing::down, through_s, end_s);
  return events;
}

}  // namespace rangecheck::samples
