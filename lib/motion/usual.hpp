// SPDX-License-Identifier: MIT
// Inside motion: what is usual of hands and arms at each position of a swing: the one place for it.
#pragma once

#include <array>
#include <optional>

#include "base/position.hpp"

namespace rangecheck::motion {

/// A number and how far it spreads over golfers and films.
struct Spread {
  double mean, sd;
};
/// Seen from the front and from behind.
using Views = std::array<Spread, 2>;

// What is usual, calibrated on about 400 made-up films a view (tests/motion/events prints how well
// it does) and widened to hold the rendered ones (tests/films). Both are models and no people.

/// What tells a position between two others that are known.
struct Usual {
  Position position;
  Spread share;                 ///< of the time from the one before to the one after
  std::optional<Views> height;  ///< of the hands (Home::height)
  std::optional<Views> arm_m;  ///< wrist above shoulder: of the arm that defines the position where
                               ///< it is seen, from behind always of the near one
};
inline constexpr Usual usual[] = {
    {Position::shaft_parallel_back, {0.495, 0.032}, std::nullopt, std::nullopt},
    {Position::lead_arm_parallel_back,
     {0.735, 0.05},
     Views{{{0.86, 0.09}, {0.91, 0.17}}},
     Views{{{-0.03, 0.05}, {-0.14, 0.14}}}},
    {Position::lead_arm_parallel_down,
     {0.46, 0.08},
     Views{{{0.86, 0.08}, {0.90, 0.155}}},
     Views{{{-0.02, 0.045}, {-0.10, 0.11}}}},
    {Position::shaft_parallel_down, {0.803, 0.02}, std::nullopt, std::nullopt},
};
/// The same for pitches and chips, less well known.
inline constexpr Usual usual_of_short[] = {
    {Position::shaft_parallel_back, {0.55, 0.05}, std::nullopt, std::nullopt},
    {Position::lead_arm_parallel_back,
     {0.81, 0.08},
     Views{{{0.86, 0.12}, {0.91, 0.20}}},
     Views{{{-0.02, 0.07}, {-0.14, 0.15}}}},
    {Position::lead_arm_parallel_down,
     {0.34, 0.10},
     Views{{{0.86, 0.12}, {0.90, 0.20}}},
     Views{{{-0.02, 0.07}, {-0.10, 0.14}}}},
    {Position::shaft_parallel_down, {0.64, 0.08}, std::nullopt, std::nullopt},
};
/// Slow, small movements turn round and set off less sharply: uncertainties grow by so much, in
/// full swings, short ones, putts.
inline constexpr std::array<double, 3> dull{1, 2, 4};
/// How the takeaway is followed back: levels of `departure`, the power of time with which it grows
/// between them, and how well that tells when it begins. From behind hands at first move along the
/// line of sight and seem to set off later.
struct Takeaway {
  double clearly, farther, power, u_s;
};
inline constexpr Takeaway takeaways[2][2] = {  // without and with club points
    {{14, 70, 2.6, 0.026}, {14, 70, 2.5, 0.017}},
    {{9, 150, 2.05, 0.036}, {9, 150, 2.25, 0.030}}};
/// Where that fails, the last sample at rest stands for the start.
inline constexpr double unsure_start_u_s = 0.08;
/// Of the trail arm after impact.
inline constexpr Views through_height{{{0.72, 0.09}, {0.74, 0.135}}};
inline constexpr Views through_arm_m{{{-0.02, 0.045}, {-0.04, 0.075}}};
/// The shaft is level so long before the trail arm, seconds: the arms tell the release better than
/// the time since impact, which golfers with and without a late release have in very different
/// lengths.
inline constexpr Spread shaft_before_arm_s{0.045, 0.018}, shaft_before_arm_of_short_s{0.09, 0.03};
/// Hands turn round so much later than where they are farthest: the filter rounds a turn off, and
/// hands come down faster than they went up. Seconds.
inline constexpr Views turns_later_s{{{0.009, 0.009}, {0.012, 0.010}}};
/// Hands at impact are so far ahead of where they were at address: in full swings, short ones,
/// putts.
inline constexpr std::array<Spread, 3> ahead_m{{{0.075, 0.04}, {0.04, 0.04}, {0, 0.02}}};
/// In a swing whose hands stay lower than this (Home::height) the shaft is never level.
inline constexpr double shaft_level_height = 0.45;
/// The hands come to rest so long after impact, seconds; and so much later than where they slow
/// down in the picture, which does not show all of their speed.
inline constexpr Spread finish_after_s{0.74, 0.075}, finish_after_short_s{0.62, 0.15},
    finish_after_low_s{0.35, 0.25};
inline constexpr double finish_m_s = 0.15;
inline constexpr Views finish_later_s{{{-0.034, 0.052}, {-0.030, 0.050}}};
/// Less sure than this an estimator guesses where arms that are wrapped round the neck hide the
/// hands, and its guess may come to rest anywhere.
inline constexpr double sure_hands = 0.6;
/// Hands are lowest so much before impact, seconds.
inline constexpr Views lowest_before_s{{{0.005, 0.020}, {0.009, 0.018}}};

}  // namespace rangecheck::motion
