// SPDX-License-Identifier: MIT
// Which frames of a track show the golfer at address, at the top and swung through, from what does
// not depend on which side is which: the middles of hands, hips and shoulders. Rough on purpose:
// it tells directions in which a body is turned, not moments.
#pragma once

#include <optional>
#include <vector>

#include "pose/side_pairs.hpp"

namespace rangecheck::pose {

struct Phases {
  std::vector<std::size_t> address, top, through;  ///< frames, in order
  std::optional<std::size_t> fastest;              ///< hands; nothing without a swing
};

Phases phases_of(const Pairs& pairs);

}  // namespace rangecheck::pose
