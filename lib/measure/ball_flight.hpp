// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>

#include "base/units.hpp"

namespace rangecheck::measure {

/// Signs here, against the target line, alike for every golfer (mirrored at intake): positive
/// points to the far side of the target line, away from the golfer (+Z): right of target for a
/// right-hander, left of it for a left-hander. So an open face, an in-to-out path and a ball that
/// starts out are positive.

/// To which side of its own start the ball curves. `toward_lead` is back across toward the golfer's
/// side of the target line, as a draw does (left for a right-hander); `toward_trail` is away from
/// the golfer, as a fade does.
enum class Curve { toward_lead, straight, toward_trail };
std::string_view name_of(Curve curve);

struct StartDirection {
  Angle value;                 ///< sign as above
  Angle standard_uncertainty;  ///< from the spread of the face's share and of the two readings
  Curve curve = Curve::straight;
  /// False when face and path differ by less than 1.645 standard uncertainties of their difference,
  /// so that the side of the curve is less than 95 % sure (JCGM 106:2012, 7.2).
  bool curve_sure = false;
};

/// path + face_share (face − path): launch lies between path and face, nearer the face (Jorgensen,
/// The Physics of Golf, 2nd ed. 1999, from memory).
Angle launch_direction(Angle face, Angle path, double face_share);

/// Start direction and curve of the ball from club face and club path at impact. The face's share
/// is rectangular over [0.61, 0.83] (Wood, Henrikson & Broadie 2018, Proceedings 2(6):249,
/// doi 10.3390/proceedings2060249), the spread over clubs: which club was hit does not enter.
/// `reading_uncertainty` is the standard uncertainty of each reading, the two taken as independent.
/// Hits off the middle of the face are left out.
StartDirection start_direction(Angle face, Angle path, Angle reading_uncertainty);

}  // namespace rangecheck::measure
