// SPDX-License-Identifier: MIT
// When something turned fastest, from a few angles in time.
#pragma once

#include <optional>
#include <span>

#include "base/units.hpp"

namespace rangecheck::measure {

struct Peak {
  Duration time;
  Duration standard_uncertainty;
};

/// The moment of the greatest rate of change of `angle_rad` over `time_s` (strictly increasing):
/// speeds from a quadratic through five neighbours (Savitzky & Golay 1964), the vertex of the
/// parabola through the greatest of them and its neighbours. The uncertainty is that of the same
/// over angles shaken by how far they lie from their neighbours' quadratic. Nothing with fewer than
/// seven angles, or when the greatest speed is at either end: then the peak is not among them.
std::optional<Peak> peak_of_speed(std::span<const double> time_s,
                                  std::span<const double> angle_rad);

}  // namespace rangecheck::measure
