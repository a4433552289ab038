// SPDX-License-Identifier: MIT
#include "motion/space_track.hpp"

#include <algorithm>

namespace rangecheck::motion {
namespace {

constexpr double mm_per_m = 1000;

/// The track with its points in space in the place of those in the picture. The smoother does not
/// ask what a picture is counted in.
template <class Seen>
pose::Track pictured(const pose::Track& track, Seen seen) {
  pose::Track out;
  out.view = track.view;
  for (const auto& frame : track.frames) {
    pose::TrackFrame each{frame.number, frame.time, std::nullopt};
    if (frame.person) {
      auto& person = each.person.emplace();
      for (std::size_t i = 0; i < landmark_count; ++i) {
        const auto& point = frame.person->space.values()[i];
        if (!point) continue;
        person.image.values()[i] = intake::Sighting{seen(*point), point->confidence};
      }
    }
    out.frames.push_back(std::move(each));
  }
  return out;
}

}  // namespace

LandmarkMap<InstantSpatialPoint> SpaceTrack::at(Duration time) const {
  const Instant from_front = front.at(time), from_side = side.at(time);
  LandmarkMap<InstantSpatialPoint> out;
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const auto &a = from_front.points.values()[i], &b = from_side.points.values()[i];
    // Each may have lost a point that it took for an outlier.
    if (!a || !b) continue;
    out.values()[i] = InstantSpatialPoint{
        .at_m = {a->at.x_px / mm_per_m, a->at.y_px / mm_per_m, b->at.x_px / mm_per_m},
        .velocity_m_s = {a->velocity_px_s.x_px / mm_per_m, a->velocity_px_s.y_px / mm_per_m,
                         b->velocity_px_s.x_px / mm_per_m},
        .jitter_u_m = std::max(a->jitter_u_px, b->jitter_u_px) / mm_per_m,
        .confidence = a->confidence};
  }
  return out;
}

SpaceTrack smooth_space(const pose::Track& track, const Clock& clock) {
  using intake::ImagePoint;
  using intake::SpatialSighting;
  return {smooth(pictured(track,
                          [](const SpatialSighting& p) {
                            return ImagePoint{mm_per_m * p.x_m, mm_per_m * p.y_m};
                          }),
                 clock),
          smooth(pictured(track,
                          [](const SpatialSighting& p) {
                            return ImagePoint{mm_per_m * p.z_m, mm_per_m * p.y_m};
                          }),
                 clock)};
}

}  // namespace rangecheck::motion
