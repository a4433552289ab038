// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/result.hpp"
#include "base/units.hpp"

namespace rangecheck {

/// What a number measures. A value and a limit can be compared only within one dimension.
enum class Dimension { angle, length, ratio, time };

/// A number that carries what it measures: the form in which values of different rules travel
/// together. `si` is in radians, metres, 1 or seconds, as `dimension` says.
struct Quantity {
  double si = 0;
  Dimension dimension = Dimension::ratio;

  static constexpr Quantity of(Angle v) { return {v.in_radians(), Dimension::angle}; }
  static constexpr Quantity of(Length v) { return {v.in_metres(), Dimension::length}; }
  static constexpr Quantity of(Ratio v) { return {v.value, Dimension::ratio}; }
  static constexpr Quantity of(Duration v) { return {v.in_seconds(), Dimension::time}; }
};

/// A unit a person may write. `symbol` is what is written after the number ("" for a ratio).
struct Unit {
  std::string_view symbol;
  Dimension dimension;
  double si_per_unit;
};

/// The unit spelled `symbol`: deg, rad, in, ft, m, cm, mm, s, ms, "" (ratio) or %.
std::optional<Unit> find_unit(std::string_view symbol);

/// Value of `quantity` counted in `unit`. Both must be of one dimension (asserted).
double in_unit(Quantity quantity, const Unit& unit);

/// The unit results are written in: deg, s and "" always; lengths as `length_symbol` ("in", "cm").
const Unit& display_unit(Dimension dimension, std::string_view length_symbol = "in");

/// Reads `14.5 in`, `37 cm`, `-3 deg`, `0.45` or `5 ft 10 in`. The dimension must be `wanted`; a
/// bare number is a ratio and is refused where a unit is due. The error says what was read and
/// which units are understood; the caller adds the place.
Result<Quantity> parse_quantity(std::string_view text, Dimension wanted);

std::string_view name_of(Dimension dimension);

}  // namespace rangecheck
