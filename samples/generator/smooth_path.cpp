// SPDX-License-Identifier: MIT
#include "generator/smooth_path.hpp"

#include <algorithm>
#include <cmath>

namespace rangecheck::samples {
namespace {

/// A move between two knots, maybe from rest or to rest at the end that is not looked at.
struct Move {
  double length_s, by;
  bool rests;
  double speed() const { return by / length_s; }
  /// At the end that is looked at: what starts from rest is faster in the end than on average.
  double speed_there() const { return (rests ? 1.5 : 1.0) * speed(); }
};

/// Speed at a knot between two moves in the same direction: that of the parabola through the three
/// knots, but never so fast that the path would have to come back (Steffen 1990, A&A 239, 443).
double speed_between(const Move& before, const Move& after) {
  const double parabola =
      (before.speed_there() * after.length_s + after.speed_there() * before.length_s) /
      (before.length_s + after.length_s);
  const double limit = 2 * std::min(std::abs(before.speed()), std::abs(after.speed()));
  return std::clamp(parabola, -limit, limit);
}

/// Acceleration at a knot where the path turns round: that of the gentler of the two moves, as
/// half a wave of a cosine has it at its ends, or a little less.
double acceleration_at_turn(const Move& before, const Move& after) {
  constexpr double of_cosine = 4;  // pi squared over 2 would be the cosine itself
  const double in = std::abs(before.by) / (before.length_s * before.length_s);
  const double out = std::abs(after.by) / (after.length_s * after.length_s);
  return std::copysign(of_cosine * std::min(in, out), after.by);
}

}  // namespace

double smooth_step(double x) {
  const double in = std::clamp(x, 0.0, 1.0);
  return in * in * in * (10 - 15 * in + 6 * in * in);
}

double held_below(double value, double width) {
  return value <= 0 ? value : width * std::tanh(value / width);
}

SmoothPath::SmoothPath(const std::vector<Knot>& knots) {
  for (const auto& knot : knots) nodes_.push_back({knot.time_s, knot.value, 0, 0});
  const auto change = [&](std::size_t from) { return knots[from + 1].value - knots[from].value; };
  const auto turns = [&](std::size_t i) {
    return i == 0 || i + 1 == knots.size() || change(i - 1) * change(i) <= 0;
  };
  for (std::size_t i = 1; i + 1 < nodes_.size(); ++i) {
    const auto move = [&](std::size_t from, std::size_t other_end) -> Move {
      return {knots[from + 1].time_s - knots[from].time_s, change(from), turns(other_end)};
    };
    const Move before = move(i - 1, i - 1), after = move(i, i + 1);
    if (turns(i)) {
      nodes_[i].acceleration = acceleration_at_turn(before, after);
    } else {
      nodes_[i].speed = speed_between(before, after);
      nodes_[i].acceleration =
          (after.speed() - before.speed()) / (before.length_s + after.length_s);
    }
  }
}

SmoothPath::Piece SmoothPath::piece_at(double time_s) const {
  std::size_t piece = 0;
  while (piece + 2 < nodes_.size() && time_s > nodes_[piece + 1].time_s) ++piece;
  const Node &from = nodes_[piece], &to = nodes_[piece + 1];
  const double h = to.time_s - from.time_s;
  const double v0 = from.speed * h, v1 = to.speed * h;
  const double a0 = from.acceleration * h * h, a1 = to.acceleration * h * h;
  const double gap = to.value - from.value;
  return {std::clamp((time_s - from.time_s) / h, 0.0, 1.0),
          h,
          {from.value, v0, a0 / 2, 10 * gap - 6 * v0 - 4 * v1 - 1.5 * a0 + 0.5 * a1,
           -15 * gap + 8 * v0 + 7 * v1 + 1.5 * a0 - a1, 6 * gap - 3 * (v0 + v1) - 0.5 * (a0 - a1)}};
}

double SmoothPath::at(double time_s) const {
  const Piece piece = piece_at(time_s);
  double value = 0;
  for (std::size_t i = 6; i-- > 0;) value = value * piece.share + piece.powers[i];
  return value;
}

double SmoothPath::speed(double time_s) const {
  const Piece piece = piece_at(time_s);
  double value = 0;
  for (std::size_t i = 6; i-- > 1;) value = value * piece.share + double(i) * piece.powers[i];
  return value / piece.length_s;
}

}  // namespace rangecheck::samples
