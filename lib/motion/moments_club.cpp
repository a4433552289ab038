// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "motion/moments.hpp"

namespace rangecheck::motion {
namespace {

using enum Position;

/// By how much the two ends of a level shaft may differ in height, in the picture: points of club
/// and hands are off, and a camera above or below the hands sees a shaft that points at it tilted.
constexpr double level_u_m[] = {0.04, 0.10};
/// How far the head of a level shaft seems to lie below the grip where it points at the camera, and
/// above it where it points away, for each unit of the camera's height over the hands in distances
/// of the camera; the usual height of the hands in them; ankle to ankle along the line of sight.
/// Fitted to made-up films from behind.
constexpr double toward_camera_m = 1.17, from_camera_m = 0.31, hands_over_distance = 0.14,
                 stance_m = 0.45;
/// Sharper than this no moment is known, whatever it is that passes.
constexpr double least_u_s = 0.004;
/// How far the head may be from where it stood at address when it meets the ball.
constexpr double ball_u_m = 0.06;
/// Points farther apart in time than this do not show what was between.
constexpr double seen_s = 0.05;
/// A sign that leaves a moment open by more tells nothing.
constexpr double useless_s = 0.3;

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
    if (top_at && m_.rest) out[shaft_parallel_back] = level(*m_.rest, *top_at, false);
    if (top_at && hit_at) out[shaft_parallel_down] = level(*hit_at, *top_at, false);
    if (top_at && hit_at) {
      // Later the club comes down again behind the golfer.
      const std::size_t until = std::min(*hit_at + (*hit_at - *top_at), s_.samples - 1);
      out[shaft_parallel_through] = level(*hit_at, until, true);
    }
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
    if (gap_s > seen_s || !(u_s < useless_s)) return std::nullopt;
    return Guess{s_.time_s(place),
                 std::hypot(std::max(least_u_s, u_s), 0.25 * s_.step_s, gap_s / 2), true};
  }

  /// What a level shaft that points at the camera, or away from it, seems to fall or rise: the near
  /// end of two that are equally high lies lower in the picture, the more so the higher the camera
  /// stands over them. The feet, one behind the other, tell how high it stands over the ground.
  double tilt_m(bool head_is_far) const {
    if (front_ || !s_.far_foot_m.any()) return 0;
    const double rest = static_cast<double>(m_.rest.value_or(m_.away));
    const double camera = std::clamp(s_.far_foot_m.at(rest) / stance_m, 0.0, 0.7);
    return (head_is_far ? from_camera_m : -toward_camera_m) * (camera - hands_over_distance);
  }

  std::optional<Guess> level(std::size_t from, std::size_t to, bool head_is_far) const {
    const auto passed = crossing(s_.shaft_y_m, tilt_m(head_is_far), from, to);
    if (!passed) return std::nullopt;
    return at(*passed,
              std::abs(level_u_m[front_ ? 0 : 1] * s_.step_s / s_.shaft_y_m.slope(*passed)));
  }

  /// Seen from the front, the shaft's direction turns round. From behind it points along the line
  /// of sight then and tells nothing: it turns a little later than the hands.
  std::optional<Guess> turn() const {
    if (!hands_[top]) return std::nullopt;
    if (!front_) {
      constexpr double later_s = 0.011, later_u_s = 0.014;
      return Guess{hands_[top]->time_s + later_s, std::hypot(hands_[top]->u_s, later_u_s), false};
    }
    const std::size_t about = *sample(hands_[top]), reach = s_.count(0.15);
    const std::size_t begin = about - std::min(about, reach),
                      end = std::min(about + reach, s_.samples - 1);
    // Rising on the way back: from down by way of away from the target to up.
    std::vector<double> turned;
    for (std::size_t i = begin; i <= end; ++i) {
      const double angle = std::atan2(-s_.shaft_x_m.value[i], -s_.shaft_y_m.value[i]);
      turned.push_back(
          turned.empty() ? angle : turned.back() + std::remainder(angle - turned.back(), 2 * M_PI));
    }
    const auto most = std::max_element(turned.begin(), turned.end());
    return at(static_cast<double>(begin) + static_cast<double>(most - turned.begin()), 0.012);
  }

  /// Head back where it stood: from the front by the shaft's direction, from behind by how low it
  /// is.
  std::optional<Guess> strike() const {
    if (!hands_[impact] || !m_.rest) return std::nullopt;
    const auto rest = static_cast<double>(*m_.rest);
    const std::size_t about = *sample(hands_[impact]), reach = s_.count(0.10);
    const std::size_t begin = about - std::min(about, reach),
                      end = std::min(about + reach, s_.samples - 1);
    if (front_) {
      // The same shaft above the hands, on the way down, is another moment.
      std::optional<double> passed;
      for (std::size_t i = begin; i < end; ++i) {
        const auto each = crossing(s_.shaft_x_m, s_.shaft_x_m.at(rest), i, i + 1);
        if (each && s_.shaft_y_m.at(*each) < 0.5 * s_.shaft_y_m.at(rest))
          passed = passed ? passed : each;
      }
      if (!passed) return std::nullopt;
      return at(*passed, std::abs(ball_u_m * s_.step_s / s_.shaft_x_m.slope(*passed)));
    }
    std::size_t lowest = begin;
    for (std::size_t i = begin; i <= end; ++i) {
      if (s_.head_y_m.value[i] < s_.head_y_m.value[lowest]) lowest = i;
    }
    // A head that passes at 30 m/s is far from its lowest in the frames next to it.
    constexpr double frame_share = 0.6;
    const auto by_club =
        at(static_cast<double>(lowest), std::hypot(0.010, frame_share * s_.step_s));
    if (!by_club) return std::nullopt;
    auto out = together({*by_club, *hands_[impact]});
    out->from_club = true;
    return out;
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
