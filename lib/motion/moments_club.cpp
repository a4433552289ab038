// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "motion/moments.hpp"

namespace rangecheck::motion {
namespace {

using enum Position;

/// By how much the two ends of a level shaft may differ in height, in the picture: points of club
/// and hands are off, and a camera above or below the hands sees a shaft that points at it tilted.
constexpr double level_u_m[] = {0.03, 0.08};
/// How far the head may be from where it stood at address when it meets the ball.
constexpr double ball_u_m = 0.06;
/// Points farther apart in time than this do not show what was between.
constexpr double seen_s = 0.05;

class ClubTimer {
 public:
  ClubTimer(const Signals& signals, intake::View view, const Movement& movement,
            const Guesses& hands)
      : s_(signals), front_(view == intake::View::face_on), m_(movement), hands_(hands) {}

  Guesses all() const {
    Guesses out;
    out[impact] = strike();
    out[top] = turn();
    const auto top_at = sample(out[top] ? out[top] : hands_[top]);
    const auto hit_at = sample(out[impact] ? out[impact] : hands_[impact]);
    // The head is below the grip at address and at impact, above it between; the first and the last
    // time the shaft lies level are those next to the low places.
    if (top_at && m_.rest) out[shaft_parallel_back] = level(*m_.rest, *top_at);
    if (top_at && hit_at) out[shaft_parallel_down] = level(*hit_at, *top_at);
    if (hit_at) out[shaft_parallel_through] = level(*hit_at, std::max(m_.through, *hit_at));
    return out;
  }

 private:
  std::optional<std::size_t> sample(const std::optional<Guess>& guess) const {
    if (!guess) return std::nullopt;
    return static_cast<std::size_t>(
        std::clamp(std::lround((guess->time_s - s_.start_s) / s_.step_s), 0L,
                   static_cast<long>(s_.samples) - 1));
  }
  /// Nothing where the club was not seen near it.
  std::optional<Guess> at(double place, double u_s) const {
    const double gap_s = s_.step_s * s_.shaft_y_m.from_known(place);
    if (gap_s > seen_s) return std::nullopt;
    return Guess{s_.time_s(place), std::hypot(u_s, 0.2 * s_.step_s, gap_s / 2), true};
  }

  std::optional<Guess> level(std::size_t from, std::size_t to) const {
    const auto passed = crossing(s_.shaft_y_m, 0, from, to);
    if (!passed) return std::nullopt;
    return at(*passed,
              std::abs(level_u_m[front_ ? 0 : 1] * s_.step_s / s_.shaft_y_m.slope(*passed)));
  }

  /// The club turns round where its direction changes least, near where the hands turn.
  std::optional<Guess> turn() const {
    if (!hands_[top]) return std::nullopt;
    const std::size_t about = *sample(hands_[top]), reach = s_.count(0.15);
    const std::size_t begin = about - std::min(about, reach),
                      end = std::min(about + reach, s_.samples - 1);
    std::size_t slowest = about;
    const auto speed = [&](std::size_t i) {
      const auto place = static_cast<double>(i);
      return std::hypot(s_.head_x_m.slope(place), s_.head_y_m.slope(place));
    };
    for (std::size_t i = begin; i <= end; ++i) {
      if (speed(i) < speed(slowest)) slowest = i;
    }
    return at(static_cast<double>(slowest), 0.015);
  }

  /// Head back where it stood.
  std::optional<Guess> strike() const {
    if (!hands_[impact] || !m_.rest) return std::nullopt;
    const auto rest = static_cast<double>(*m_.rest);
    const std::size_t about = *sample(hands_[impact]), reach = s_.count(0.10);
    const std::size_t begin = about - std::min(about, reach),
                      end = std::min(about + reach, s_.samples - 1);
    if (front_) {
      const auto passed = crossing(s_.shaft_x_m, s_.shaft_x_m.at(rest), begin, end);
      if (!passed) return std::nullopt;
      return at(*passed, std::abs(ball_u_m * s_.step_s / s_.shaft_x_m.slope(*passed)));
    }
    std::size_t lowest = begin;
    for (std::size_t i = begin; i <= end; ++i) {
      if (s_.head_y_m.value[i] < s_.head_y_m.value[lowest]) lowest = i;
    }
    return at(static_cast<double>(lowest), 0.008);
  }

  const Signals& s_;
  bool front_;
  const Movement& m_;
  const Guesses& hands_;
};

}  // namespace

Guesses moments_of_club(const Signals& signals, intake::View view, const Movement& movement,
                        const Guesses& hands) {
  if (!signals.has_club()) return {};
  return ClubTimer(signals, view, movement, hands).all();
}

}  // namespace rangecheck::motion
