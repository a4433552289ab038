// SPDX-License-Identifier: MIT
#include "report/figure_lines.hpp"

#include <cmath>
#include <numbers>

namespace rangecheck::report {
namespace {

using Form = measure::Drawing::Form;

constexpr double quarter = std::numbers::pi / 2;
/// Of a joint that is straighter than this in the picture, jitter may make it bend either way.
constexpr double least_bend_rad = 3 * std::numbers::pi / 180;

double wrapped(double radians) { return std::remainder(radians, 2 * std::numbers::pi); }

std::optional<Spot> at(const Figure& figure, LandmarkId id) {
  const auto& point = figure.points[id];
  if (!point) return std::nullopt;
  return Spot{point->x_px, point->y_px};
}

/// The middle of `ids`, all of which must be there.
std::optional<Spot> middle(const Figure& figure, std::span<const LandmarkId> ids) {
  Spot sum;
  for (const LandmarkId id : ids) {
    const auto one = at(figure, id);
    if (!one) return std::nullopt;
    sum = sum + *one;
  }
  return (1.0 / static_cast<double>(ids.size())) * sum;
}

constexpr LandmarkId shoulders[] = {lead(Joint::shoulder), trail(Joint::shoulder)};
constexpr LandmarkId hips[] = {lead(Joint::hip), trail(Joint::hip)};

struct Pair {
  Joint from, to;
};
constexpr Pair limbs[] = {{Joint::shoulder, Joint::elbow}, {Joint::elbow, Joint::wrist},
                          {Joint::hip, Joint::knee},       {Joint::knee, Joint::ankle},
                          {Joint::ankle, Joint::heel},     {Joint::heel, Joint::big_toe}};

/// The middle of whatever of the face is there.
std::optional<Spot> face(const Figure& figure) {
  constexpr LandmarkId parts[] = {centre(Joint::nose), lead(Joint::eye), trail(Joint::eye),
                                  lead(Joint::ear), trail(Joint::ear)};
  Spot sum;
  int count = 0;
  for (const LandmarkId id : parts) {
    const auto one = at(figure, id);
    if (!one) continue;
    sum = sum + *one;
    ++count;
  }
  if (count == 0) return std::nullopt;
  return (1.0 / count) * sum;
}

double direction(const Spot& from, const Spot& to) {
  return std::atan2(to.y - from.y, to.x - from.x);
}

}  // namespace

Outline outline_of(const Figure& figure) {
  Outline out;
  const auto add = [&](const std::optional<Spot>& from, const std::optional<Spot>& to, Side side,
                       bool club = false) {
    if (from && to) out.bones.push_back({*from, *to, side, club});
  };
  for (const Side side : {Side::trail, Side::lead})
    for (const auto& [from, to] : limbs)
      add(at(figure, {side, from}), at(figure, {side, to}), side);
  const auto chest = middle(figure, shoulders), pelvis = middle(figure, hips);
  add(at(figure, shoulders[0]), at(figure, shoulders[1]), Side::centre);
  add(at(figure, hips[0]), at(figure, hips[1]), Side::centre);
  add(chest, pelvis, Side::centre);
  add(at(figure, centre(Joint::grip_end)), at(figure, centre(Joint::hosel)), Side::centre, true);
  add(at(figure, centre(Joint::hosel)), at(figure, centre(Joint::club_toe)), Side::centre, true);
  if (const auto head = face(figure); head && chest && pelvis) {
    // About a head's half breadth; a drawing's own proportion, nothing is measured by it.
    const double radius = 0.2 * (*chest - *pelvis).length();
    out.head = Outline::Round{*head, radius};
    const Spot neck = *head - *chest;
    if (neck.length() > radius) add(chest, *head - (radius / neck.length()) * neck, Side::centre);
  }
  out.ball = at(figure, centre(Joint::ball));
  return out;
}

double Fan::in_picture() const { return sense * wrapped(arm - reference); }

std::optional<Fan> fan_of(const Figure& figure, const measure::Drawing& drawing) {
  if (drawing.form == Form::distance) return std::nullopt;
  const auto from = middle(figure, drawing.from), to = middle(figure, drawing.to);
  if (!from || !to) return std::nullopt;
  if (drawing.form == Form::bend) {
    const auto joint = middle(figure, drawing.joint);
    if (!joint || *joint == *from || *joint == *to) return std::nullopt;
    Fan fan{.middle = *joint,
            .radius = (*from - *joint).length(),
            .reference = direction(*to, *joint),
            .arm = direction(*joint, *from)};
    const double turn = wrapped(fan.arm - fan.reference);
    if (std::abs(turn) < least_bend_rad) return std::nullopt;
    fan.sense = turn < 0 ? -1 : 1;
    return fan;
  }
  if (*from == *to) return std::nullopt;
  Fan fan{.middle = *from, .radius = (*to - *from).length(), .arm = direction(*from, *to)};
  if (drawing.form == Form::from_upright) {
    fan.reference = -quarter;
    fan.sense = figure.left_handed ? -drawing.lean : drawing.lean;
    return fan;
  }
  const bool rightward = to->x > from->x;
  fan.reference = rightward ? 0 : 2 * quarter;
  fan.sense = rightward ? -1 : 1;
  return fan;
}

std::optional<std::pair<Spot, Spot>> ends_of(const Figure& figure,
                                             const measure::Drawing& drawing) {
  if (drawing.form != Form::distance) return std::nullopt;
  const auto from = middle(figure, drawing.from), to = middle(figure, drawing.to);
  if (!from || !to || from->x == to->x) return std::nullopt;
  return from->x < to->x ? std::pair(*from, *to) : std::pair(*to, *from);
}

}  // namespace rangecheck::report
