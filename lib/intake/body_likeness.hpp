// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "intake/choose_layout.hpp"

namespace rangecheck::intake {

/// How little the points of a film look like bodies when read in this order: their mean bone in
/// shares of the body's extent, more where paired bones differ or the legs are over the shoulders.
/// About 0.2 for a right order, two to three times that for a wrong one; larger is worse.
double unlikeness_to_body(const RawFilm& film, PointsOf list,
                          const std::vector<LayoutPoint>& points);

/// True when in most bodies the hips' left is the shoulders' right, which no back can do.
bool legs_are_crossed(const RawFilm& film, PointsOf list, const std::vector<LayoutPoint>& points);

}  // namespace rangecheck::intake
