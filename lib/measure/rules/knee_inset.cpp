// SPDX-License-Identifier: MIT
#include <limits>

#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

template <Side side>
constexpr LandmarkId needs[] = {{side, Joint::knee}, {side, Joint::ankle}};

/// How far the knee is from above the ankle toward the other leg, along the target line.
template <Side side>
std::optional<Length> inset(const std::array<Point, 2>& given) {
  return Length::metres(outward(side) * (given[1].x() - given[0].x()));
}

template <Side side>
constexpr Placed upright[] = {{outward(side) * 0.2, 0.5, 0.1}, {outward(side) * 0.2, 0.1, 0}};
template <Side side>
constexpr Placed knocked_in[] = {{outward(side) * 0.14, 0.5, 0}, {outward(side) * 0.2, 0.1, 0}};
template <Side side>
constexpr Placed bowed_out[] = {{outward(side) * 0.23, 0.5, 0}, {outward(side) * 0.2, 0.1, 0}};
template <Side side>
constexpr WorkedExample examples[] = {
    {upright<side>, 0, 1e-9, "by construction"},
    {knocked_in<side>, 0.06, 1e-9, "by construction"},
    {bowed_out<side>, -0.03, 1e-9, "by construction"},
};

// Half the breadth of a foot: ANSUR II (Gordon et al. 2014, NATICK/TR-15/007), foot breadth 102 mm
// in men, 93 mm in women.
constexpr double half_foot_breadth_m = 0.049;
constexpr Category categories[] = {{-std::numeric_limits<double>::infinity(), "outside"},
                                   {-half_foot_breadth_m, "over"},
                                   {half_foot_breadth_m, "inside"}};

template <Side side>
constexpr Rule rule(std::string_view id, std::string_view title) {
  return {
      .id = id,
      .title = title,
      .region = Region::knees,
      .dimension = Dimension::length,
      .sign = "0 over the ankle, positive toward the other leg",
      .needs = needs<side>,
      .seen_limit_si = Length::inches(1.5).in_metres(),
      .limit = "Along the target line: a knee that bends over a flared foot moves outward too.",
      .source = "own definition; inside and outside: beyond half a foot's breadth",
      .examples = examples<side>,
      .measure = from<needs<side>, inset<side>>,
      .categories = categories,
      .at = Positions::from(Position::address, Position::impact),
  };
}

constexpr Rule rules[] = {rule<Side::lead>("lead-knee-inset", "Lead knee inset"),
                          rule<Side::trail>("trail-knee-inset", "Trail knee inset")};

}  // namespace

extern const RuleSet knee_inset;
constexpr RuleSet knee_inset = rules;

}  // namespace rangecheck::measure
