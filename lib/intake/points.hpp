// SPDX-License-Identifier: MIT
// What all dialects share about single points: which ones are missing, and lists of x, y, c.
#pragma once

#include <optional>
#include <span>

#include "intake/document.hpp"
#include "intake/film.hpp"
#include "intake/layouts.hpp"

namespace rangecheck::intake {

/// The sighting, or nothing where the estimator says that there is none: no number, (0, 0) or
/// (−1, −1). The confidence is clamped to 0..1; without one it is 1.
std::optional<Sighting> sighting_of(std::optional<double> x, std::optional<double> y,
                                    double confidence = 1);

/// Puts flat x, y, c triples into `person`. `values` has three numbers for each point of `layout`.
/// A c that is null or at most 0 means missing.
void read_triples(const Json& values, std::span<const LayoutPoint> layout, const Spot& where,
                  Person& person);

/// True when the person has any point in the picture.
bool has_points(const Person& person);

}  // namespace rangecheck::intake
