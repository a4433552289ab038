// SPDX-License-Identifier: MIT
// What the rules about change share: the same formula now and at address.
#pragma once

#include <algorithm>
#include <array>
#include <optional>

#include "measure/geometry.hpp"

namespace rangecheck::measure {

inline Angle less(Angle now, Angle before) { return wrapped(now - before); }
inline Length less(Length now, Length before) { return now - before; }

/// `formula` of the first `count` points (now) less that of the others (the same at address); an
/// angle in (−180°, 180°]. Undefined where the formula is, now or then.
template <std::size_t count, auto formula>
auto change(const std::array<Point, 2 * count>& given)
    -> decltype(formula(std::array<Point, count>())) {
  std::array<Point, count> now, before;
  std::copy_n(given.begin(), count, now.begin());
  std::copy_n(given.begin() + count, count, before.begin());
  const auto value = formula(now);
  const auto value_before = formula(before);
  if (!value || !value_before) return std::nullopt;
  return less(*value, *value_before);
}

}  // namespace rangecheck::measure
