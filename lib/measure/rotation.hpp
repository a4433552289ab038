// SPDX-License-Identifier: MIT
// The order in which pelvis, chest, arms and club reach their greatest rotation speed on the way
// down.
#pragma once

#include <array>
#include <optional>
#include <span>

#include "base/message.hpp"
#include "measure/peak.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {

inline constexpr std::array<Moment, 4> peak_moments{Moment::pelvis_peak, Moment::chest_peak,
                                                    Moment::arms_peak, Moment::club_peak};

/// A peak, or why there is none.
struct PeakFound {
  std::optional<Peak> peak;
  Message reason, remedy;
};

/// When each of `peak_moments` was, from postures at rising times of one swing, from about the top
/// to about the shaft parallel through. Pelvis and chest turn as the lines of hips and shoulders do
/// seen from above; arms and club as the lines from the middle of the shoulders to the middle of
/// the wrists and from grip end to hosel do in space.
///
/// A line whose direction no film shows well (standard uncertainty above 10°, or not half of what
/// prior knowledge gives, at most of the times) has no peak: it would be prior knowledge's own.
std::array<PeakFound, 4> rotation_peaks(std::span<const double> time_s,
                                        std::span<const posture::Posture> postures);

}  // namespace rangecheck::measure
