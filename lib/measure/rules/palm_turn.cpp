// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

template <Side side>
constexpr LandmarkId needs[] = {
    {side, Joint::wrist}, {side, Joint::index_1}, {side, Joint::little_1}};

/// Turn of the palm about the hand's own length (wrist to the middle of the index and little
/// knuckles) from where it faces along the target line, as the palms of two hanging hands face each
/// other. Undefined when the three points are in one line or the hand points along the target line.
template <Side side>
std::optional<Angle> turn(const std::array<Point, 3>& given) {
  const auto& [wrist, index, little] = given;
  const auto palm = out_of_palm(side, wrist, index, little);
  if (!palm) return std::nullopt;
  const Point hand = (midpoint(index, little) - wrist).normalized();
  const Point to_other = -outward(side) * Point::UnitX();
  const Point unturned = to_other - to_other.dot(hand) * hand;
  return direction(palm->dot(outward(side) * hand.cross(to_other)), palm->dot(unturned));
}

template <Side side>
constexpr Placed upright[] = {{0, 0, 0}, {0, -0.05, 0.09}, {0, -0.09, 0.05}};
template <Side side>
constexpr Placed turned_down[] = {
    {0, 0, 0}, {outward(side) * -0.03, 0.04, 0.09}, {outward(side) * 0.03, -0.04, 0.09}};
template <Side side>
constexpr Placed turned_on_a_slope[] = {
    {0, 0, 0}, {outward(side) * -0.018, -0.0656, 0.0792}, {outward(side) * 0.018, -0.0944, 0.0408}};
template <Side side>
constexpr Placed hanging[] = {
    {0, 0, 0}, {outward(side) * 0.04, -0.09, 0.03}, {outward(side) * -0.04, -0.09, -0.03}};
template <Side side>
constexpr Placed facing_up[] = {
    {0, 0, 0}, {outward(side) * 0.03, 0, 0.09}, {outward(side) * -0.04, 0, 0.08}};
template <Side side>
constexpr WorkedExample examples[] = {
    {upright<side>, 0, 1e-9, "by construction"},
    {turned_down<side>, 36.869897645844, 1e-9, "by construction: 3-4-5 triangle"},
    {turned_on_a_slope<side>, 36.869897645844, 1e-9,
     "by construction: the same about a hand that points down the slope of a 3-4-5 triangle"},
    {hanging<side>, -53.130102354156, 1e-9,
     "by construction: 3-4-5 triangle, about a hand that hangs straight down"},
    {facing_up<side>, -90, 1e-9, "by construction"},
};

template <Side side>
constexpr Rule rule(std::string_view id, std::string_view title) {
  return {
      .id = id,
      .title = title,
      .region = Region::grip,
      .dimension = Dimension::angle,
      .sign = "0 palm facing the other hand, positive turned to face down or the golfer",
      .needs = needs<side>,
      .seen_limit_si = Angle::degrees(6).in_radians(),
      .limit =
          "Turn of the hand, not of the club face in it. Three points a few inches apart, which an "
          "estimator places to half an inch: films of a whole golfer hardly show it. A person who "
          "looks at the hands does.",
      .source = "own definition; turn of the hands from upright is common practice, no source",
      .examples = examples<side>,
      .measure = from<needs<side>, turn<side>>,
  };
}

constexpr Rule rules[] = {rule<Side::lead>("lead-palm-turn", "Lead palm turn"),
                          rule<Side::trail>("trail-palm-turn", "Trail palm turn")};

}  // namespace

extern const RuleSet palm_turn;
constexpr RuleSet palm_turn = rules;

}  // namespace rangecheck::measure
