// SPDX-License-Identifier: MIT
// Where the golfer stands still, and how much the landmarks jitter there.
#pragma once

#include <optional>
#include <vector>

#include "base/message.hpp"
#include "base/result.hpp"
#include "base/skeleton.hpp"
#include "pose/golfer.hpp"

namespace rangecheck::motion {

/// A landmark averaged over a still window.
struct StillPoint {
  intake::ImagePoint at;   ///< median over the window
  double jitter_u_px = 0;  ///< standard uncertainty of that median from frame-to-frame jitter,
                           ///< along either axis; 0 for a single picture, which shows none
  double confidence = 1;   ///< median of what the estimator gave
  std::size_t frames = 0;  ///< in which it was seen
};

/// The estimator's own 3D idea of a landmark, averaged the same way. Camera axes, metres.
struct StillSpatialPoint {
  double x_m = 0, y_m = 0, z_m = 0;
  double confidence = 1;
};

struct Still {
  LandmarkMap<StillPoint> points;
  LandmarkMap<StillSpatialPoint> spatial;
  std::size_t first_frame = 0, last_frame = 0;  ///< indices into the track, inclusive
  std::vector<Message> notes;
};

/// The swing that a film shows, for the search of its address: which frame is the last before the
/// golfer sets off, or nothing when the film begins midway.
struct SwingStart {
  std::optional<std::size_t> frame;  ///< index into the track
};

/// The still address: the last stretch before the swing in which trunk, legs and hands move no more
/// than jitter, at least 0.15 s (5 frames at 30 Hz; a film of fewer frames is held still or not as
/// a whole, and one or two pictures are taken as they are). `swing` is what find_swing found;
/// without one, the longest stretch before anything that looks like a stroke. The start of the film
/// is skipped while the estimator settles; frames without a golfer are skipped. A stretch with both
/// hands nearer the shoulders than the hips is no address. An error when the golfer is never still
/// at address.
Result<Still> still_address(const pose::Track& track, double frame_rate_hz,
                            const std::optional<SwingStart>& swing = std::nullopt);

}  // namespace rangecheck::motion
