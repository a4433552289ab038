// SPDX-License-Identifier: MIT
#include "pose/upside_down.hpp"

#include <algorithm>
#include <array>
#include <span>

namespace rangecheck::pose {
namespace {

using intake::Person;

/// Middle height in the picture of those of `joints` that are seen; larger is lower.
std::optional<double> height_of(const Person& person, std::span<const LandmarkId> joints) {
  double sum_px = 0;
  int seen = 0;
  for (const LandmarkId id : joints) {
    if (!person.image[id]) continue;
    sum_px += person.image[id]->at.y_px;
    ++seen;
  }
  if (seen == 0) return std::nullopt;
  return sum_px / seen;
}

/// Head below hips or feet, or hips below feet. No swing looks like that.
bool upside_down(const Person& person) {
  constexpr std::array head{centre(Joint::nose), lead(Joint::eye), trail(Joint::eye),
                            lead(Joint::ear), trail(Joint::ear)};
  constexpr std::array hips{lead(Joint::hip), trail(Joint::hip)};
  constexpr std::array feet{lead(Joint::ankle), trail(Joint::ankle)};
  const auto head_px = height_of(person, head), hips_px = height_of(person, hips),
             feet_px = height_of(person, feet);
  return (head_px && hips_px && *head_px > *hips_px) ||
         (head_px && feet_px && *head_px > *feet_px) || (hips_px && feet_px && *hips_px > *feet_px);
}

}  // namespace

std::size_t upside_down_frames(const Track& track) {
  return static_cast<std::size_t>(std::count_if(
      track.frames.begin(), track.frames.end(),
      [](const TrackFrame& frame) { return frame.person && upside_down(*frame.person); }));
}

std::size_t drop_upside_down(Track& track) {
  std::size_t dropped = 0;
  for (TrackFrame& frame : track.frames) {
    if (!frame.person || !upside_down(*frame.person)) continue;
    frame.person.reset();
    ++dropped;
  }
  return dropped;
}

}  // namespace rangecheck::pose
