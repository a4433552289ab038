// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>

#include "base/units.hpp"

namespace rangecheck::measure {

/// To which side of its start the ball curves, named from the golfer: toward the lead side of the
/// target line is what a draw does.
enum class Curve { toward_lead, straight, toward_trail };
std::string_view name_of(Curve curve);

struct StartDirection {
  Angle value;                  ///< positive to the trail side's… see start_direction
  Angle standard_uncertainty;   ///< from the spread of the split and of the two readings
  Curve curve = Curve::straight;
  bool curve_sure = false;      ///< false when face and path differ by less than their uncertainty
};

/// Start direction of the ball from club face and club path at impact, all against the target line.
/// Sign for every golfer (mirrored at intake): face open and path in-to-out are positive, so positive
/// is away from the golfer's lead side (right of target for a right-hander).
/// launch = path + w (face − path), w rectangular over [0.61, 0.83]: Wood, Henrikson & Broadie 2018,
/// Proceedings 2(6):249, doi 10.3390/proceedings2060249. `reading_uncertainty` is of each reading.
StartDirection start_direction(Angle face, Angle path, Angle reading_uncertainty);

}  // namespace rangecheck::measure
