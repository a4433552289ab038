// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {centre(Joint::grip_end), centre(Joint::hosel)};

/// The shaft seen from above against the target line, as a line of the body is: open positive, the
/// end nearer the target farther from the ball line. In [−90°, 90°]. Undefined when the shaft is
/// upright.
std::optional<Angle> line(const std::array<Point, 2>& given) {
  const auto& [grip, hosel] = given;
  return grip.x() > hosel.x() ? open_angle(grip, hosel) : open_angle(hosel, grip);
}

constexpr Placed on_line[] = {{-0.2, 1.7, 0.1}, {0.6, 1.6, 0.1}};
constexpr Placed laid_off[] = {{-0.2, 1.6, 0.1}, {0.6, 1.6, -0.5}};
constexpr Placed head_inside[] = {{-0.3, 0.9, 0.4}, {-1.1, 0.9, -0.2}};
constexpr Placed head_outside[] = {{-0.3, 0.9, 0.4}, {-1.1, 0.9, 1.0}};
constexpr WorkedExample examples[] = {
    {on_line, 0, 1e-9, "by construction"},
    {laid_off, 36.869897645844, 1e-9, "by construction: 3-4-5 triangle, at the top"},
    {head_inside, -36.869897645844, 1e-9, "by construction: 3-4-5 triangle, shaft parallel back"},
    {head_outside, 36.869897645844, 1e-9, "by construction: 3-4-5 triangle, shaft parallel back"},
};

constexpr Rule rules[] = {{
    .id = "shaft-line",
    .title = "Shaft line",
    .region = Region::club,
    .dimension = Dimension::angle,
    .sign =
        "seen from above: 0 along the target line, positive open (top: laid off; going back and "
        "down: head outside the hands), negative closed (across the line; head inside)",
    .needs = needs,
    .seen_limit_si = Angle::degrees(6).in_radians(),
    .limit = "A camera that is not square adds its own turn. Means little near 90, square to the "
             "target line.",
    .source = "own definition",
    .examples = examples,
    .measure = from<needs, line>,
    .at = Positions::of(Position::shaft_parallel_back, Position::top, Position::shaft_parallel_down,
                        Position::shaft_parallel_through),
}};

}  // namespace

extern const RuleSet shaft_line;
constexpr RuleSet shaft_line = rules;

}  // namespace rangecheck::measure
