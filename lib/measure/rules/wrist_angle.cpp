// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

template <Side side>
constexpr LandmarkId needs[] = {
    {side, Joint::elbow}, {side, Joint::wrist}, {side, Joint::index_1}, {side, Joint::little_1}};

/// Bend of the wrist toward the back of the hand: the forearm's direction against that of the hand
/// (wrist to the middle of the index and little knuckles), about the axis across the knuckles. Side
/// cock of the wrist does not enter. Signed, so that a flat wrist reads without bias. Undefined
/// when the hand points are in one line or the forearm lies along the knuckles.
template <Side side>
std::optional<Angle> extension(const std::array<Point, 4>& given) {
  const auto& [elbow, wrist, index, little] = given;
  const auto palm = out_of_palm(side, wrist, index, little);
  if (!palm) return std::nullopt;
  const Point hand = midpoint(index, little) - wrist;
  const Point forearm = wrist - elbow;
  return direction(forearm.dot(*palm), forearm.dot(hand.normalized()));
}

template <Side side>
constexpr Placed flat[] = {{0, 0.25, 0}, {0, 0, 0}, {0, -0.09, 0.03}, {0, -0.09, -0.03}};
template <Side side>
constexpr Placed cupped[] = {{0, 0.25, 0},
                             {0, 0, 0},
                             {outward(side) * 0.06, -0.08, 0.03},
                             {outward(side) * 0.06, -0.08, -0.03}};
template <Side side>
constexpr WorkedExample examples[] = {
    {flat<side>, 0, 1e-9, "by construction"},
    {cupped<side>, 36.869897645844, 1e-9, "by construction: 3-4-5 triangle"},
};

template <Side side>
constexpr Rule rule(std::string_view id, std::string_view title) {
  return {
      .id = id,
      .title = title,
      .region = Region::hands,
      .dimension = Dimension::angle,
      .sign = "0 flat, positive cupped (back of the hand toward the forearm), negative bowed",
      .needs = needs<side>,
      .seen_limit_si = Angle::degrees(6).in_radians(),
      .limit =
          "Hand points are close together and hide behind each other on the grip: mostly only "
          "seen from films of the hands.",
      .source = "own definition",
      .examples = examples<side>,
      .measure = from<needs<side>, extension<side>>,
      .at = Positions::of(Position::address, Position::lead_arm_parallel_back, Position::top,
                          Position::shaft_parallel_down, Position::impact),
  };
}

constexpr Rule rules[] = {rule<Side::lead>("lead-wrist-angle", "Lead wrist"),
                          rule<Side::trail>("trail-wrist-angle", "Trail wrist")};

}  // namespace

extern const RuleSet wrist_angle;
constexpr RuleSet wrist_angle = rules;

}  // namespace rangecheck::measure
