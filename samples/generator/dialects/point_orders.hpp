// SPDX-License-Identifier: MIT
// The order of the points in estimators' lists, as their writers have them. Written down apart from
// intake's layouts, so that each is a check of the other.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/skeleton.hpp"

namespace rangecheck::samples {

struct OrderedPoint {
  std::string name;              ///< as the estimator spells it, in snake_case; may be empty
  std::optional<LandmarkId> id;  ///< of the scene; nothing for points that the scene hasn't
};
using PointOrder = std::vector<OrderedPoint>;

/// The order of that name: "coco-17", "body-25", … Throws when there is none.
PointOrder order_of(std::string_view set);

/// "left_big_toe" of a right-handed golfer, whose left is the lead side. Throws on an unknown name.
LandmarkId point_named(std::string_view name);
/// The other way round.
std::string anatomical_name(LandmarkId id);
/// "left_big_toe" → "leftBigToe".
std::string camel_case(std::string_view snake_case);

}  // namespace rangecheck::samples
