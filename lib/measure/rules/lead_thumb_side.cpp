// SPDX-License-Identifier: MIT
#include <limits>

#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {lead(Joint::thumb_4), centre(Joint::grip_end),
                                centre(Joint::hosel)};

/// How far the tip of the lead thumb lies to the trail side of the shaft, as the golfer sees it who
/// looks down on the shaft: square to the shaft and level. Undefined when the shaft stands upright.
std::optional<Length> side(const std::array<Point, 3>& given) {
  const auto& [thumb, grip, hosel] = given;
  const Point trailward = (hosel - grip).cross(Point::UnitY());
  if (trailward.norm() < coincident_m) return std::nullopt;
  return Length::metres((thumb - grip).dot(trailward.normalized()));
}

constexpr Placed on_top[] = {{0, 0.72, 0.32}, {0, 0.8, 0.2}, {0, 0.2, 0.8}};
constexpr Placed trail_side[] = {{-0.012, 0.71, 0.31}, {0, 0.8, 0.2}, {0, 0.2, 0.8}};
constexpr Placed leaning_shaft[] = {{0.02, 0.7, 0.2}, {0, 0.8, 0.2}, {-0.3, 0.2, 0.6}};
constexpr WorkedExample examples[] = {
    {on_top, 0, 1e-9, "by construction: height over the shaft does not count"},
    {trail_side, 0.012, 1e-9, "by construction"},
    {leaning_shaft, -0.016, 1e-9, "by construction: 3-4-5 triangle"},
};

/// A thumb is about 20 mm broad, so that one less than a quarter of that off is on top. Common
/// practice, no source.
constexpr double on_top_m = 0.005;
constexpr Category categories[] = {{-std::numeric_limits<double>::infinity(), "lead side"},
                                   {-on_top_m, "on top"},
                                   {on_top_m, "trail side"}};

constexpr Rule rules[] = {{
    .id = "lead-thumb-side",
    .title = "Side of the grip on which the lead thumb lies",
    .region = Region::grip,
    .dimension = Dimension::length,
    .sign = "0 on top of the shaft, positive on its trail side",
    .needs = needs,
    .seen_limit_si = Length::inches(0.25).in_metres(),  // half of its whole range
    .limit = "The thumb lies within an inch of the shaft, where an estimator errs by half an inch: "
             "films "
             "of a whole golfer do not show it. A person who looks at the grip does.",
    .source = "common practice, no source",
    .examples = examples,
    .measure = from<needs, side>,
    .categories = categories,
}};

}  // namespace

extern const RuleSet lead_thumb_side;
constexpr RuleSet lead_thumb_side = rules;

}  // namespace rangecheck::measure
