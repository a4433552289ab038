// SPDX-License-Identifier: MIT
// What the writers share: rounding, and points that estimators list and we have no name for.
#pragma once

#include <algorithm>
#include <nlohmann/json.hpp>
#include <stdexcept>
#include <vector>

#include "generator/writer.hpp"

namespace rangecheck::samples {

using Json = nlohmann::ordered_json;

double rounded(double value, int decimals);

/// A point made from landmarks by weights that sum to 1. Sides are anatomical: lead means left.
struct Mix {
  struct Part {
    LandmarkId id;
    double weight = 1;
  };
  std::vector<Part> parts;
  Mix(LandmarkId id) : parts{{id, 1}} {}  // NOLINT: implicit by design
  Mix(std::vector<Part> parts) : parts(std::move(parts)) {}
};

/// The mix with the sides of the drawn golfer, whose lead side is the left of a right-hander and
/// the right of a left-hander.
Mix as_drawn(Mix anatomical, Hand hand);

/// `at` is the member that holds the place of a point. The confidence is that of the least sure.
template <class Point, class Place>
Point mixed(const LandmarkMap<Point>& points, const Mix& mix, Place Point::*at) {
  Point sum{Place::Zero(), 1};
  for (const auto& part : mix.parts) {
    if (!points[part.id]) throw std::runtime_error("not detected: " + key_of(part.id));
    sum.*at += part.weight * (*points[part.id].*at);
    sum.confidence = std::min(sum.confidence, points[part.id]->confidence);
  }
  return sum;
}

}  // namespace rangecheck::samples
