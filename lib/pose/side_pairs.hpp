// SPDX-License-Identifier: MIT
// A track as the pairs of the body, for telling lead from trail: how far the two points of each
// pair are apart in the picture, in metres on the body.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "base/message.hpp"
#include "pose/golfer.hpp"

namespace rangecheck::pose {

/// Landmarks of both sides that are exchanged together or not at all. Eyes lie too near each other
/// to be told apart but by the ears; fingers go with their wrist, the small toe with the big one.
enum class Pair : std::uint8_t { face, shoulders, elbows, hands, hips, knees, ankles, heels, toes };
inline constexpr std::size_t pair_count = 9;

/// A set of pairs, one bit each.
using PairSet = std::uint32_t;
inline constexpr PairSet all_pairs = (1U << pair_count) - 1;
constexpr PairSet only(Pair pair) { return 1U << static_cast<unsigned>(pair); }

constexpr std::size_t index_of(Pair pair) { return static_cast<std::size_t>(pair); }
/// The pair that a paired joint belongs to.
Pair pair_of(Joint joint);
/// Pairs that one part of the body joins.
inline constexpr std::array<std::array<Pair, 2>, 8> joined{{{Pair::face, Pair::shoulders},
                                                            {Pair::shoulders, Pair::elbows},
                                                            {Pair::elbows, Pair::hands},
                                                            {Pair::shoulders, Pair::hips},
                                                            {Pair::hips, Pair::knees},
                                                            {Pair::knees, Pair::ankles},
                                                            {Pair::ankles, Pair::heels},
                                                            {Pair::heels, Pair::toes}}};
/// "knees, ankles and heels": the words of the reports; "whole body" for all.
std::vector<Message> names_of(PairSet pairs);

/// Metres on the body of an adult, x right and y down in the picture.
struct Flat {
  double x_m = 0, y_m = 0;

  Flat operator+(Flat b) const { return {x_m + b.x_m, y_m + b.y_m}; }
  Flat operator-(Flat b) const { return {x_m - b.x_m, y_m - b.y_m}; }
  Flat operator*(double by) const { return {x_m * by, y_m * by}; }
  double dot(Flat b) const { return x_m * b.x_m + y_m * b.y_m; }
  double squared() const { return dot(*this); }
};

/// One frame of a track. Nothing here knows which of a pair is which but `lead`, `trail` and what
/// follows from them.
struct PairsFrame {
  std::array<std::optional<Flat>, pair_count> lead, trail;  ///< as the estimator names them
  /// Lead minus trail away from the camera, metres, as the estimator itself guesses.
  std::array<std::optional<double>, pair_count> deeper_m;
  std::array<double, pair_count> sure{};  ///< least confidence of the two
  /// Farthest apart of two points of the pair; infinite where one lacks the other. Of the hands the
  /// mean over all points that both have: single ones stray by as much as hands are apart.
  std::array<double, pair_count> widest_m{};
  /// Lead minus trail hand along the way that hands point, or arms where no fingers are seen.
  std::optional<double> lead_hand_ahead_m;
  std::optional<Flat> shoulders, hands, hips;  ///< middles of what is seen of a pair

  /// Lead minus trail, where both are seen.
  std::optional<Flat> apart(std::size_t pair) const {
    if (!lead[pair] || !trail[pair]) return std::nullopt;
    return *lead[pair] - *trail[pair];
  }
};

/// The value in the middle, the upper one of two. There must be some.
double median(std::vector<double> values);

/// A whole track, one entry a frame; empty entries where the golfer was not found.
struct Pairs {
  double pixels_per_metre = 0;
  std::vector<std::optional<PairsFrame>> frames;
};

/// The size of a metre is that of a golfer who is bent over the ball: 1.42 m from head to feet.
Pairs pairs_of(const Track& track);

}  // namespace rangecheck::pose
