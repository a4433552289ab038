// SPDX-License-Identifier: MIT
// What the rules about travel share: how far the middle of a lead and a trail landmark has moved
// since address along one axis of the golfer frame.
#pragma once

#include "measure/change.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure::travel {

template <Joint joint>
inline constexpr LandmarkId needs[] = {lead(joint), trail(joint)};

template <int axis>
std::optional<Length> middle(const std::array<Point, 2>& given) {
  return Length::metres(midpoint(given[0], given[1])[axis]);
}

// The middle moves by 3 cm along X, 4 cm along Y and -5 cm along Z; its two ends by other amounts.
inline constexpr Placed moved[] = {
    {0.14, 0.95, -0.06}, {-0.02, 0.93, -0.14}, {0.12, 0.92, -0.06}, {-0.06, 0.88, -0.04}};
inline constexpr WorkedExample examples[3][1] = {{{moved, 0.03, 1e-9, "by construction"}},
                                                 {{moved, 0.04, 1e-9, "by construction"}},
                                                 {{moved, -0.05, 1e-9, "by construction"}}};

/// Travel along `axis` (0 X, 1 Y, 2 Z). The caller gives the words.
template <Joint joint, int axis>
constexpr Rule rule(std::string_view id, std::string_view title, Region region,
                    std::string_view sign, std::string_view limit, std::string_view source) {
  return {
      .id = id,
      .title = title,
      .region = region,
      .dimension = Dimension::length,
      .sign = sign,
      .needs = needs<joint>,
      .seen_limit_si = Length::inches(1.5).in_metres(),
      .limit = limit,
      .source = source,
      .examples = examples[axis],
      .measure = from<needs<joint>, needs<joint>, change<2, middle<axis>>>,
      .at = Positions::from(Position::shaft_parallel_back, Position::finish),
      .address_needs = needs<joint>,
  };
}

}  // namespace rangecheck::measure::travel
