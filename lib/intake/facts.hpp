// SPDX-License-Identifier: MIT
// Facts about a golfer as people write them, in the roster and in a manifest alike. Errors carry no
// place: the caller knows it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "intake/submission.hpp"

namespace rangecheck::intake {

/// `right` or `left`.
Result<Handedness> handedness_from(std::string_view text);

/// `178 cm`, `5 ft 10 in`: between 0.9 m and 2.3 m.
Result<Length> stature_from(std::string_view text);

/// `EU 42`, `UK 9`, `US-M 10`, `mondopoint 275`.
Result<FootLength> shoe_from(std::string_view text);

/// `no deep knee flexion; stiff neck` → the two, trimmed.
std::vector<std::string> limits_from(std::string_view text);

}  // namespace rangecheck::intake
