// SPDX-License-Identifier: MIT
#include "motion/view_told.hpp"

#include <cmath>
#include <numeric>

#include "motion/in_picture.hpp"

namespace rangecheck::motion {
namespace {

/// Over the height from ankle to shoulder. Feet are 0.2 to 0.5 apart from the front and next to
/// nothing along the line; toes are 0.2 before their heels along the line (a foot is a fifth of
/// that height), and a fraction of it from the front, one to either side. Made-up golfers.
constexpr double beside = 0.17, behind = 0.11, ahead = 0.11;

}  // namespace

ViewTold view_told(const pose::Track& track) {
  std::vector<std::size_t> frames(track.frames.size());
  std::iota(frames.begin(), frames.end(), std::size_t{0});
  const Places places = usual_places(track, frames);
  const auto x_between = [&](LandmarkId from, LandmarkId to) -> std::optional<double> {
    const auto &a = places[from], &b = places[to];
    return a && b ? std::optional(b->x_px - a->x_px) : std::nullopt;
  };
  double height = 0;
  int sides = 0;
  for (const Side side : {Side::lead, Side::trail}) {
    const auto &top = places[{side, Joint::shoulder}], &bottom = places[{side, Joint::ankle}];
    if (!top || !bottom) continue;
    height += bottom->y_px - top->y_px;
    ++sides;
  }
  const auto feet = x_between(trail(Joint::ankle), lead(Joint::ankle));
  if (sides == 0 || height <= 0 || !feet) return {};
  height /= sides;
  const double apart = std::abs(*feet) / height;
  const auto lead_foot = x_between(lead(Joint::heel), lead(Joint::big_toe)),
             trail_foot = x_between(trail(Joint::heel), trail(Joint::big_toe));
  if (lead_foot && trail_foot) {
    const double toes = (*lead_foot + *trail_foot) / 2 / height;
    if (std::abs(toes) > ahead && apart < beside) return {intake::View::down_the_line, toes < 0};
    if (std::abs(toes) < ahead && apart > behind) return {intake::View::face_on};
    return {};
  }
  if (apart > beside) return {intake::View::face_on};
  if (apart < behind) return {intake::View::down_the_line};
  return {};
}

}  // namespace rangecheck::motion
