// SPDX-License-Identifier: MIT
// Inside motion: when one movement passes each position, from hands and arms and from the club.
#pragma once

#include <optional>
#include <vector>

#include "base/position.hpp"
#include "motion/search.hpp"
#include "motion/signals.hpp"

namespace rangecheck::motion {

/// When something may have been, by one or several signs.
struct Guess {
  double time_s = 0, u_s = 0;
  bool from_club = false;
};
using Guesses = PositionMap<Guess>;

/// Several signs of one moment as one: weighed by their uncertainties, and where they contradict
/// each other, less sure. Nothing from nothing.
std::optional<Guess> together(const std::vector<Guess>& signs);

/// Where the hands are at rest and how high the shoulders are above them there.
struct Home {
  double x_m = 0, y_m = 0, shoulder_m = 0;
  /// 0 at rest, 1 as high as the shoulders were.
  double height(double y) const { return (y - y_m) / (shoulder_m - y_m); }
};
Home home_of(const Signals& signals, const Movement& movement);

/// How far hands, arms, shoulders and club are from where they were in the samples from `begin` to
/// `end`, over how far they strayed there: a number that has no unit and is about 0 at rest.
Signal departure(const Signals& signals, std::size_t begin, std::size_t end);

/// From hands and arms alone.
Guesses moments_of_hands(const Signals& signals, intake::View view, Reach reach,
                         const Movement& movement);

/// From the club's points, for the positions that they show; `hands` says about when to look.
Guesses moments_of_club(const Signals& signals, intake::View view, const Movement& movement,
                        const Guesses& hands);

}  // namespace rangecheck::motion
