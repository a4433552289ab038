// SPDX-License-Identifier: MIT
// How good a film is, as far as its landmarks tell: numbers only. What is good enough is for grade
// to say.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "intake/film.hpp"
#include "motion/film_motion.hpp"

namespace rangecheck::motion {

/// A number with its standard uncertainty; 0 for what is counted.
struct Fact {
  double value = 0, u = 0;
};

/// How far something stays inside the picture, in heights of the golfer at address: negative where
/// it is cut off.
struct Margin {
  Fact at_address;
  Fact least;            ///< over the swing, but for the worst one in twenty of the pictures
  double cut_share = 0;  ///< of the pictures, in which it is cut off for sure
};

/// A part of the body, or the club.
enum class Part { head, trunk, arms, legs, feet, club };
std::string_view name_of(Part part);

/// How sure the estimator was of a part, 0..1: mean over its joints, of each the surer side, since
/// a body hides half of itself. Pictures in which a joint is missing count 0.
struct PartSeen {
  Part part = Part::head;
  double at_address = 0;
  std::optional<double> in_swing;  ///< nothing where the film shows no swing
};

/// Everything is absent that the film can't tell. Heights are those of the golfer at address, from
/// the soles to the top of the head.
struct FilmFacts {
  bool shows_swing = false;
  std::size_t pictures = 0;          ///< that show the golfer, repeats left out
  std::optional<double> rate_hz;     ///< of the real scene; absent where it was only assumed
  std::optional<double> lost_share;  ///< of the pictures there should be: missing, or repeats
  std::optional<double> unevenness;  ///< standard deviation of the steps, over the usual one
  std::optional<double> still_s;     ///< before the swing; 0 when the golfer is never still
  bool still_longer = false;         ///< nobody has set off when the film ends: at least so long
  std::optional<double> after_address_s;  ///< how long the film goes on after the still address
  std::optional<Fact> height_share;       ///< the golfer's height over that of the picture
  std::optional<Margin> feet, head, hands;
  std::optional<double> jitter_share;  ///< at address, picture to picture, over the height:
                                       ///< median over the body's joints of one axis' spread
  /// Heights that the hands move from picture to picture at their fastest: how far they may be
  /// smeared, were the shutter open all the time. How long it was open no landmark tells.
  std::optional<double> hands_step;
  /// How sure the estimator is of the hands on the way down, over how sure at address: what blur
  /// there was takes away.
  std::optional<double> hands_kept;
  std::vector<PartSeen> parts;  ///< of those that the film has points of; none without confidences
};

/// `motion` is nullptr where the golfer never stands still: then all pictures count as address.
FilmFacts film_facts(const pose::Track& track, const intake::Film& film, const Clock& clock,
                     const FilmMotion* motion);

}  // namespace rangecheck::motion
