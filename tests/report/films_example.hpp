// SPDX-License-Identifier: MIT
// How good films are, made by hand.
#pragma once

#include <initializer_list>
#include <vector>

#include "grade/filming.hpp"

namespace rangecheck::report {

/// Numbers in which nothing is wrong.
inline motion::FilmFacts well_filmed() {
  motion::FilmFacts facts;
  facts.shows_swing = true;
  facts.pictures = 400;
  facts.rate_hz = 240;
  facts.lost_share = 0;
  facts.unevenness = 0.01;
  facts.still_s = 1;
  facts.height_share = motion::Fact{0.6, 0.01};
  facts.feet = facts.head = facts.hands = motion::Margin{{0.2, 0.02}, {0.15, 0.02}, 0};
  facts.jitter_share = 0.002;
  facts.hands_step = 0.04;
  facts.hands_kept = 0.9;
  facts.parts = {{motion::Part::head, 0.9, 0.9}, {motion::Part::feet, 0.8, 0.7}};
  return facts;
}

/// A camera that stands `off_square_deg` round to the left, known to 1 degree.
inline posture::CameraSeen camera_off(intake::View view, double off_square_deg) {
  const double deg = Angle::degrees(1).in_radians();
  return {view, {1.0, 0.05}, {3, 0.1}, {off_square_deg * deg, deg}, {0.1, 0.02}, {0, 0.01}};
}

inline grade::FilmQuality example_film(intake::View view, const motion::FilmFacts& facts,
                                       double off_square_deg = 1) {
  return grade::judge_film(grade::shipped_filming(), view, facts, camera_off(view, off_square_deg));
}

}  // namespace rangecheck::report
