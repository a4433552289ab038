// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/position.hpp"
#include "base/quantity.hpp"
#include "base/result.hpp"

namespace rangecheck::grade {

/// A numeric check that needs no profile to be known: a measure of the catalogue somewhere in the
/// swing, or a launch monitor's reading.
struct KnownCheck {
  std::string id;  ///< as Check::id
  std::string title;
  std::optional<Position> position;
  Dimension dimension = Dimension::angle;
};

/// The one that a person calls `text`: POSITION/MEASURE, or an id alone, which is a measure at
/// `here`, else at address. Fault::bad_value without a place, naming the nearest, for what is none.
Result<KnownCheck> known_check(std::string_view text, Position here = Position::address);

}  // namespace rangecheck::grade
