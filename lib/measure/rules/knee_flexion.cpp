// SPDX-License-Identifier: MIT
#include "measure/change.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

template <Side side>
constexpr LandmarkId needs[] = {{side, Joint::hip}, {side, Joint::knee}, {side, Joint::ankle}};

template <Side side, Joint joint>
constexpr LandmarkId one[] = {{side, joint}};

/// 180° minus the angle hip–knee–ankle: 0 straight, never negative. Any frame: only differences of
/// positions enter. Undefined when the knee coincides with another point.
std::optional<Angle> bend(const std::array<Point, 3>& given) {
  return flexion(given[0], given[1], given[2]);
}

constexpr Placed straight[] = {{0.1, 0.9, 0}, {0.1, 0.5, 0}, {0.1, 0.1, 0}};
constexpr Placed right_angle[] = {{0, 0.5, -0.4}, {0, 0.5, 0}, {0, 0.1, 0}};
constexpr Placed standing[] = {{0, 1, 0}, {0.1, 0.55, 0}, {0, 0.1, 0}};
constexpr WorkedExample examples[] = {
    {straight, 0, 1e-6, "by construction"},
    {right_angle, 90, 1e-9, "by construction"},
    {standing, 25.058, 5e-4, "180 deg - 2 atan(0.45 / 0.10) by hand"},
};

constexpr Placed straightened[] = {{0, 1, 0},      {0.1, 0.55, 0}, {0, 0.1, 0},
                                   {0, 0.5, -0.4}, {0, 0.5, 0},    {0, 0.1, 0}};
constexpr WorkedExample change_examples[] = {
    {straightened, 25.057615418303 - 90, 1e-9,
     "as standing less the right angle: 25.0576 - 90 deg"}};

template <Side side>
constexpr Rule rule(std::string_view id, std::string_view title) {
  return {
      .id = id,
      .title = title,
      .region = Region::knees,
      .dimension = Dimension::angle,
      .sign = "0 straight, positive bent",
      .needs = needs<side>,
      .seen_limit_si = Angle::degrees(6).in_radians(),
      .limit = "Can't tell an over-stretched knee from a bent one, nor bend from knock-knee.",
      .source = "three-point angle, own definition",
      .examples = examples,
      .measure = from<needs<side>, bend>,
      .magnitude = true,
      .at = Positions::from(Position::address, Position::finish),
      .drawing = Drawing{.form = Drawing::Form::bend,
                         .view = intake::View::down_the_line,
                         .from = one<side, Joint::hip>,
                         .to = one<side, Joint::ankle>,
                         .joint = one<side, Joint::knee>},
  };
}

template <Side side>
constexpr Rule change_rule(std::string_view id, std::string_view title) {
  return {
      .id = id,
      .title = title,
      .region = Region::knees,
      .dimension = Dimension::angle,
      .sign = "since address: 0 kept, positive more bent, negative straightened",
      .needs = needs<side>,
      .seen_limit_si = Angle::degrees(6).in_radians(),
      .limit = "Near straight the bend itself is not sure to a few degrees.",
      .source = "three-point angle, own definition",
      .examples = change_examples,
      .measure = from<needs<side>, needs<side>, change<3, bend>>,
      .at = Positions::from(Position::shaft_parallel_back, Position::shaft_parallel_through),
      .address_needs = needs<side>,
  };
}

constexpr Rule rules[] = {
    rule<Side::lead>("lead-knee-flexion", "Lead knee flexion"),
    rule<Side::trail>("trail-knee-flexion", "Trail knee flexion"),
    change_rule<Side::lead>("lead-knee-flexion-change", "Change of lead knee flexion"),
    change_rule<Side::trail>("trail-knee-flexion-change", "Change of trail knee flexion")};

}  // namespace

extern const RuleSet knee_flexion;
constexpr RuleSet knee_flexion = rules;

}  // namespace rangecheck::measure
