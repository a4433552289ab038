// SPDX-License-Identifier: MIT
#include "pose/sides.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

namespace rangecheck::pose {
namespace {

using intake::Person;

/// Toes this far below the heels, over height, are below them and not level: 9 mm, an estimator's
/// error. A camera 1 m up at 3.5 m sees them 22 mm lower.
constexpr double least_toes_below = 0.005;
/// Hips and feet this far to the wrong side, over height, are no estimator's error: a third of the
/// distance of the hips.
constexpr double wrong_side = 0.04;

/// From the topmost to the lowest landmark in the picture.
double height_px(const Person& person) {
  double low = std::numeric_limits<double>::max(), high = std::numeric_limits<double>::lowest();
  for (const auto& point : person.image.values()) {
    if (!point) continue;
    low = std::min(low, point->at.y_px);
    high = std::max(high, point->at.y_px);
  }
  return high > low ? high - low : 0;
}

/// Mean of lead minus trail along the picture for the lower body, which never turns past the camera
/// in a swing, over the person's height. Nothing when fewer than two pairs are seen.
std::optional<double> lead_side_offset(const Person& person) {
  double sum = 0;
  int pairs = 0;
  for (const Joint joint : {Joint::hip, Joint::knee, Joint::ankle, Joint::heel}) {
    const auto &a = person.image[lead(joint)], &b = person.image[trail(joint)];
    if (!a || !b) continue;
    sum += a->at.x_px - b->at.x_px;
    ++pairs;
  }
  if (pairs < 2) return std::nullopt;
  return sum / pairs / std::max(1.0, height_px(person));
}

/// How far the toes are below the heels in the picture, over the person's height: positive when the
/// person faces the camera, which looks down on feet. Nothing without feet.
std::optional<double> toes_below_heels(const Person& person) {
  double down_px = 0;
  int feet = 0;
  for (const Side side : {Side::lead, Side::trail}) {
    const auto& toe = person.image[{side, Joint::big_toe}];
    const auto& heel = person.image[{side, Joint::heel}];
    if (!toe || !heel) continue;
    down_px += toe->at.y_px - heel->at.y_px;
    ++feet;
  }
  if (feet == 0) return std::nullopt;
  return down_px / feet / std::max(1.0, height_px(person));
}

/// Asked of the whole film, because a heel that lifts after the swing turns the answer round. Where
/// no feet are seen, no.
bool filmed_from_the_front(const Track& track) {
  std::vector<double> down;
  for (const TrackFrame& frame : track.frames) {
    if (!frame.person) continue;
    if (const auto each = toes_below_heels(*frame.person)) down.push_back(*each);
  }
  if (down.empty()) return false;
  const auto middle = down.begin() + static_cast<std::ptrdiff_t>(down.size() / 2);
  std::nth_element(down.begin(), middle, down.end());
  return *middle > least_toes_below;
}

void exchange_sides(Person& person) {
  for (std::size_t i = central_joint_count; i + 1 < landmark_count; i += 2) {
    std::swap(person.image.values()[i], person.image.values()[i + 1]);
    std::swap(person.space.values()[i], person.space.values()[i + 1]);
  }
}

}  // namespace

void mend_sides(Track& track) {
  if (track.view != intake::View::face_on || !filmed_from_the_front(track)) return;
  std::size_t exchanged = 0;
  for (TrackFrame& frame : track.frames) {
    if (!frame.person) continue;
    const auto offset = lead_side_offset(*frame.person);
    if (!offset || *offset > -wrong_side) continue;
    exchange_sides(*frame.person);
    ++exchanged;
  }
  if (exchanged == 0) return;
  track.sides_exchanged = true;
  track.notes.push_back(fmt::format(
      "in {} of {} frames the estimator had taken the golfer's front for the back: left and right "
      "were put right",
      exchanged, track.frames.size()));
}

}  // namespace rangecheck::pose
