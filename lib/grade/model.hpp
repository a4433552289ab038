// SPDX-License-Identifier: MIT
// Bands from golfers who swing as the coach wants: statistical tolerance intervals of what was
// measured of them.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "grade/profile.hpp"
#include "grade/tolerance.hpp"

namespace rangecheck::grade {

/// What one submission of a model golfer showed.
struct ModelValue {
  std::string student;
  std::string check;  ///< id
  double value_si = 0;
  double standard_uncertainty_si = 0;
};

/// Fewer golfers than this give no band: common practice, no source. (Of five the factor is 5 for
/// 90 % at 95 %, and it takes some thirty to come near the 1.64 of a population that is known.)
inline constexpr std::size_t fewest_golfers = 5;

/// A check of the base with what the model golfers say of it.
struct ModelBand {
  std::size_t golfers = 0;
  Sample robust, plain;  ///< SI
  double u_si = 0;       ///< root mean square of the golfers' standard uncertainties
  double factor = 0, plain_factor = 0;
  std::optional<Band> band;        ///< nothing: too few, or all alike
  std::optional<Band> plain_band;  ///< by mean and standard deviation, for comparison
};

/// The band for `check`, rounded outward in its unit. A golfer's several values count as one, their
/// median, since they are not independent. A side that the check leaves open stays open; an
/// unsigned angle whose lower limit would be below 0 has none. The values' own uncertainty stays in
/// the spread (DEVELOPERS.md says why).
ModelBand fit_band(const Check& check, std::span<const ModelValue> values, Factors& factors);

/// How the new profile is called.
struct ModelProfile {
  std::string id, style;
  Holding holding;
};
/// A profile that extends `base` with the fitted bands, as YAML with comments that say what each
/// rests on. An error when no check has a band.
Result<std::string> model_profile(const Profile& base, std::span<const ModelValue> values,
                                  const ModelProfile& wanted);

}  // namespace rangecheck::grade
