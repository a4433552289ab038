// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {lead(Joint::heel), trail(Joint::heel)};

constexpr LandmarkId lead_heel[] = {lead(Joint::heel)};
constexpr LandmarkId trail_heel[] = {trail(Joint::heel)};

/// Ground distance from heel to heel. Never negative; 0 when the heels are on one spot.
std::optional<Length> width(const std::array<Point, 2>& given) {
  return Length::metres(ground_distance(given[0], given[1]));
}

constexpr Placed square_stance[] = {{0.2, 0.03, 0}, {-0.2, 0.03, 0}};
constexpr Placed turned_stance[] = {{0.15, 0.02, -0.2}, {-0.15, 0.05, 0.2}};
constexpr WorkedExample examples[] = {
    {square_stance, 0.4, 1e-9, "by construction"},
    {turned_stance, 0.5, 1e-9, "by construction: 3-4-5 triangle, heel height does not count"},
};

constexpr Rule rules[] = {{
    .id = "stance-width",
    .title = "Stance width",
    .region = Region::feet,
    .dimension = Dimension::length,
    .sign = "ground distance between the heel centres; wider is more",
    .needs = needs,
    .seen_limit_si = Length::inches(1.5).in_metres(),
    .limit = "Heel to heel, so it reads less than toe to toe when the toes point out.",
    .source = "heel to heel is common practice, no source",
    .examples = examples,
    .measure = from<needs, width>,
    .drawing = Drawing{.form = Drawing::Form::distance,
                       .view = intake::View::face_on,
                       .from = trail_heel,
                       .to = lead_heel},
}};

}  // namespace

extern const RuleSet stance_width;
constexpr RuleSet stance_width = rules;

}  // namespace rangecheck::measure
