// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

template <Side side>
constexpr LandmarkId needs[] = {
    {side, Joint::shoulder}, {side, Joint::elbow}, {side, Joint::wrist}};

/// 180° minus the angle shoulder–elbow–wrist: 0 straight, never negative. Any frame. Undefined when
/// the elbow coincides with another point.
std::optional<Angle> bend(const std::array<Point, 3>& given) {
  return flexion(given[0], given[1], given[2]);
}

constexpr Placed straight[] = {{0.2, 1.3, 0.2}, {0.15, 1.05, 0.25}, {0.1, 0.8, 0.3}};
constexpr Placed right_angle[] = {{0.2, 1.3, 0.2}, {0.2, 1, 0.2}, {0, 1, 0.2}};
constexpr Placed half_folded[] = {{-0.2, 1.3, 0.2}, {-0.2, 1, 0.2}, {-0.2, 0.8, 0.4}};
constexpr WorkedExample examples[] = {
    {straight, 0, 1e-6, "by construction"},
    {right_angle, 90, 1e-9, "by construction"},
    {half_folded, 45, 1e-9, "by construction"},
};

template <Side side>
constexpr Rule rule(std::string_view id, std::string_view title) {
  return {
      .id = id,
      .title = title,
      .region = Region::arms,
      .dimension = Dimension::angle,
      .sign = "0 straight, positive bent",
      .needs = needs<side>,
      .seen_limit_si = Angle::degrees(6).in_radians(),
      .limit = "A straight arm still shows some 5 to 10 deg between joint centres (from memory).",
      .source = "three-point angle, own definition",
      .examples = examples,
      .measure = from<needs<side>, bend>,
      .magnitude = true,
      .at = Positions::from(Position::address, Position::finish),
  };
}

constexpr Rule rules[] = {rule<Side::lead>("lead-elbow-flexion", "Lead elbow flexion"),
                          rule<Side::trail>("trail-elbow-flexion", "Trail elbow flexion")};

}  // namespace

extern const RuleSet elbow_flexion;
constexpr RuleSet elbow_flexion = rules;

}  // namespace rangecheck::measure
