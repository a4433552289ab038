// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {lead(Joint::index_1), lead(Joint::little_1), trail(Joint::index_1),
                                trail(Joint::little_1)};

/// Distance along the grip from the middle of the lead hand's knuckles to that of the trail hand's,
/// over the breadth of a row of knuckles (mean of both hands). The rows themselves tell which way
/// the grip runs. Undefined when both rows are points or run against each other.
std::optional<Ratio> spacing(const std::array<Point, 4>& given) {
  const auto& [lead_index, lead_little, trail_index, trail_little] = given;
  const Point lead_row = lead_index - lead_little, trail_row = trail_index - trail_little;
  const Point grip = lead_row + trail_row;
  if (grip.norm() < coincident_m) return std::nullopt;
  const double breadth_m = (lead_row.norm() + trail_row.norm()) / 2;
  const Point apart = midpoint(trail_index, trail_little) - midpoint(lead_index, lead_little);
  return Ratio{apart.dot(grip.normalized()) / breadth_m};
}

constexpr Placed side_by_side[] = {
    {0, 0.74, 0.32}, {0, 0.8, 0.24}, {0, 0.66, 0.42}, {0, 0.72, 0.34}};
constexpr Placed one_over_the_other[] = {
    {0, 0.74, 0.32}, {0, 0.8, 0.24}, {0.02, 0.71, 0.36}, {0.02, 0.77, 0.28}};
constexpr WorkedExample examples[] = {
    {side_by_side, 1.28, 1e-9, "by construction: 3-4-5 triangles"},
    {one_over_the_other, 0.5, 1e-9, "by construction: what lies across the grip does not count"},
};

constexpr Rule rules[] = {{
    .id = "hand-spacing",
    .title = "Distance between the hands on the grip",
    .region = Region::grip,
    .dimension = Dimension::ratio,
    .sign = "in breadths of a row of knuckles; 0 on top of each other, positive trail hand lower",
    .needs = needs,
    .seen_limit_si = 0.15,  // half of what lies between ten fingers on the grip and an overlap
    .limit =
        "How far apart the hands lie, not how the fingers join. A finger's breadth tells one way "
        "from another, and films of a whole golfer show knuckles no better than that. A person who "
        "looks at the grip sees it.",
    .source = "own definition",
    .examples = examples,
    .measure = from<needs, spacing>,
}};

}  // namespace

extern const RuleSet hand_spacing;
constexpr RuleSet hand_spacing = rules;

}  // namespace rangecheck::measure
