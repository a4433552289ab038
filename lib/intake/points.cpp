// SPDX-License-Identifier: MIT
#include "intake/points.hpp"

#include <algorithm>
#include <cassert>

namespace rangecheck::intake {

std::optional<Sighting> sighting_of(std::optional<double> x, std::optional<double> y,
                                    double confidence) {
  if (!x || !y) return std::nullopt;
  // No real landmark lies on either point to the last digit.
  if ((*x == 0 && *y == 0) || (*x == -1 && *y == -1)) return std::nullopt;
  return Sighting{{*x, *y}, std::clamp(confidence, 0.0, 1.0)};
}

void read_triples(const Json& values, std::span<const LayoutPoint> layout, const Spot& where,
                  Person& person) {
  assert(values.is_array() && values.size() == 3 * layout.size());
  for (std::size_t i = 0; i < layout.size(); ++i) {
    std::optional<double> part[3];
    for (std::size_t k = 0; k < 3; ++k) {
      part[k] = number_or_null(values[3 * i + k], where.at(3 * i + k));
    }
    const bool seen = part[2] && *part[2] > 0;
    if (!layout[i] || !seen) continue;
    person.image[*layout[i]] = sighting_of(part[0], part[1], *part[2]);
  }
}

bool has_points(const Person& person) {
  const auto& points = person.image.values();
  return std::any_of(points.begin(), points.end(), [](const auto& p) { return p.has_value(); });
}

}  // namespace rangecheck::intake
