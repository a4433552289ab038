// SPDX-License-Identifier: MIT
// Tracks of a figure whose hands, and whole body, move as told.
#pragma once

#include <cmath>
#include <optional>
#include <random>
#include <span>

#include "motion/film_motion.hpp"
#include "pose/figure.hpp"

namespace rangecheck::test {

/// Where the hands are against address: aside toward the target and up, over the golfer's height.
struct Hands {
  double aside = 0, up = 0;
};

struct Key {
  double at_s;
  Hands hands;
};

/// A full swing from takeaway to finish: hands over the head at 0.8 s, back at the ball at 1.1 s.
inline constexpr Key swing_keys[] = {{0, {}},
                                     {0.45, {-0.28, 0.2}},
                                     {0.8, {-0.1, 0.42}},
                                     {0.98, {-0.27, 0.15}},
                                     {1.1, {0.03, 0.01}},
                                     {1.25, {0.28, 0.2}},
                                     {1.5, {0.08, 0.36}}};
inline constexpr double swing_s = 1.5;
/// Hands out and back within 0.6 s: slower than a swing.
inline constexpr Key waggle_keys[] = {{0, {}}, {0.3, {-0.14, 0.03}}, {0.6, {}}};
inline constexpr double waggle_s = 0.6;

/// Between the keys, at rest in each of them.
inline Hands hands_at(std::span<const Key> keys, double at_s) {
  if (at_s <= keys.front().at_s) return keys.front().hands;
  for (std::size_t i = 0; i + 1 < keys.size(); ++i) {
    const Key &a = keys[i], &b = keys[i + 1];
    if (at_s >= b.at_s) continue;
    const double t = (at_s - a.at_s) / (b.at_s - a.at_s), share = t * t * (3 - 2 * t);
    return {a.hands.aside + share * (b.hands.aside - a.hands.aside),
            a.hands.up + share * (b.hands.up - a.hands.up)};
  }
  return keys.back().hands;
}

/// A track that grows frame by frame. White jitter on every coordinate.
class Moving {
 public:
  explicit Moving(double frame_rate_hz, double jitter_px = 1, std::uint64_t seed = 1)
      : frame_rate_hz_(frame_rate_hz), jitter_px_(jitter_px), random_(seed) {}

  Moving& hold(double for_s, Hands hands = {}) {
    for (long i = 0; i < std::lround(for_s * frame_rate_hz_); ++i) add(hands);
    return *this;
  }
  Moving& move(std::span<const Key> keys, double from_s, double to_s) {
    const long first = std::lround(from_s * frame_rate_hz_),
               last = std::lround(to_s * frame_rate_hz_);
    for (long i = first; i < last; ++i) {
      add(hands_at(keys, static_cast<double>(i) / frame_rate_hz_));
    }
    return *this;
  }
  Moving& walk(double to_x_px, double within_s) {
    const double from_px = placed.x_px;
    const long steps = std::lround(within_s * frame_rate_hz_);
    for (long i = 1; i <= steps; ++i) {
      placed.x_px =
          from_px + (to_x_px - from_px) * static_cast<double>(i) / static_cast<double>(steps);
      add({});
    }
    return *this;
  }
  Moving& lose(std::size_t frames) {
    for (std::size_t i = 0; i < frames; ++i) track.frames.push_back({track.frames.size(), {}, {}});
    return *this;
  }
  std::size_t frames() const { return track.frames.size(); }
  /// The address of the film as motion finds it, a swing looked for first.
  Result<motion::Still> still() const {
    auto film = motion::film_motion(track, frame_rate_hz_, "full");
    if (!film) return film.error();
    return std::move(film->address);
  }

  pose::Track track;
  Placed placed;

 private:
  void add(Hands hands) {
    auto person = figure(placed);
    for (const Side side : {Side::lead, Side::trail}) {
      auto& wrist = person.image[{side, Joint::wrist}]->at;
      wrist.x_px += hands.aside * placed.height_px;
      wrist.y_px -= hands.up * placed.height_px;
      // Shoulders turn with the hands: from the front the line between them shortens.
      auto& shoulder = person.image[{side, Joint::shoulder}]->at;
      const double turned = std::min(1.0, std::max(std::abs(hands.aside), hands.up) / 0.3);
      shoulder.x_px += 0.7 * turned * (placed.x_px - shoulder.x_px);
    }
    for (auto& point : person.image.values()) {
      if (!point) continue;
      point->at.x_px += jitter_px_ * normal_(random_);
      point->at.y_px += jitter_px_ * normal_(random_);
    }
    track.frames.push_back({track.frames.size(), std::nullopt, person});
  }

  double frame_rate_hz_, jitter_px_;
  std::mt19937_64 random_;
  std::normal_distribution<double> normal_;
};

/// Largest distance of a landmark in the window from where `figure(placed)` has it.
inline double farthest_px(const motion::Still& still, Placed placed = {}) {
  const auto at_rest = figure(placed);
  double out = 0;
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const LandmarkId id = landmark_at(i);
    CHECK(still.points.has(id) == at_rest.image.has(id));
    if (!still.points.has(id) || !at_rest.image.has(id)) continue;
    const auto &a = still.points[id]->at, &b = at_rest.image[id]->at;
    out = std::max(out, std::hypot(a.x_px - b.x_px, a.y_px - b.y_px));
  }
  return out;
}

inline std::string error_of(const Moving& film) {
  const auto still = film.still();
  REQUIRE_FALSE(still);
  CHECK(still.error().fault == Fault::not_a_film);
  return to_string(still.error());
}

}  // namespace rangecheck::test
