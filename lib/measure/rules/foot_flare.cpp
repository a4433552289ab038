// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

template <Side side>
constexpr LandmarkId needs[] = {{side, Joint::heel}, {side, Joint::big_toe}};

/// Direction from heel to big toe, seen from above, against square to the target line: positive
/// when the toe points away from the other foot. Undefined when heel and toe coincide from above.
template <Side side>
std::optional<Angle> flare(const std::array<Point, 2>& given) {
  const Point foot = given[1] - given[0];
  return direction(outward(side) * foot.x(), foot.z());
}

template <Side side>
constexpr Placed square_foot[] = {{outward(side) * 0.2, 0.03, 0},
                                  {outward(side) * 0.2, 0.01, 0.25}};
template <Side side>
constexpr Placed flared[] = {{outward(side) * 0.2, 0, 0}, {outward(side) * 0.35, 0, 0.2}};
template <Side side>
constexpr Placed toed_in[] = {{outward(side) * 0.2, 0, 0}, {outward(side) * 0.1, 0, 0.1}};
template <Side side>
constexpr WorkedExample examples[] = {
    {square_foot<side>, 0, 1e-9, "by construction"},
    {flared<side>, 36.869897645844, 1e-9, "by construction: 3-4-5 triangle"},
    {toed_in<side>, -45, 1e-9, "by construction"},
};

template <Side side>
constexpr Rule rule(std::string_view id, std::string_view title) {
  return {
      .id = id,
      .title = title,
      .region = Region::feet,
      .dimension = Dimension::angle,
      .sign = "0 square to the target line, positive toe pointing away from the other foot",
      .needs = needs<side>,
      .seen_limit_si = Angle::degrees(6).in_radians(),
      .limit =
          "Against the target line, so a camera that is not square adds its own turn. The big "
          "toe lies inside the middle of the foot, so a straight foot reads a few degrees low.",
      .source = "heel to big toe, own definition",
      .examples = examples<side>,
      .measure = from<needs<side>, flare<side>>,
  };
}

constexpr Rule rules[] = {rule<Side::lead>("lead-foot-flare", "Lead foot flare"),
                          rule<Side::trail>("trail-foot-flare", "Trail foot flare")};

}  // namespace

extern const RuleSet foot_flare;
constexpr RuleSet foot_flare = rules;

}  // namespace rangecheck::measure
