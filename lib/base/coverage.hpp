// SPDX-License-Identifier: MIT
#pragma once

namespace rangecheck {

/// Half-width of a 95 % interval of a normal distribution, in standard uncertainties.
inline constexpr double coverage_factor_95 = 1.959964;

}  // namespace rangecheck
