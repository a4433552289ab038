// SPDX-License-Identifier: MIT
#include "measure/geometry.hpp"
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr LandmarkId needs[] = {
    lead(Joint::shoulder), trail(Joint::shoulder), lead(Joint::elbow),   trail(Joint::elbow),
    lead(Joint::wrist),    trail(Joint::wrist),    lead(Joint::hip),     trail(Joint::hip),
    lead(Joint::knee),     trail(Joint::knee),     lead(Joint::ankle),   trail(Joint::ankle),
    lead(Joint::heel),     trail(Joint::heel),     lead(Joint::big_toe), trail(Joint::big_toe)};
using Body = std::array<Point, std::size(needs)>;
enum Pair : std::size_t { shoulders = 0, elbows = 2, wrists = 4, hips = 6, knees = 8, ankles = 10 };
enum Foot : std::size_t { heels = 12, toes = 14 };

Point middle(const Body& body, std::size_t pair) { return midpoint(body[pair], body[pair + 1]); }

/// Centre of mass of the body. As segments come in equal pairs, the middle of each pair will do.
/// Shares of body mass, and centres from the upper end: Winter, Biomechanics and Motor Control of
/// Human Movement, 4th ed. 2009, table 4.1, from memory. The foot's is put half-way from heel to
/// toe.
Point centre_of_mass(const Body& body) {
  const auto between = [&body](std::size_t upper, std::size_t lower, double share) {
    return Point((1 - share) * middle(body, upper) + share * middle(body, lower));
  };
  return 2 * 0.028 * between(shoulders, elbows, 0.436) +  // upper arms
         2 * 0.022 * between(elbows, wrists, 0.682) +     // forearms and hands
         0.578 * between(hips, shoulders, 0.66) +         // trunk, neck and head
         2 * 0.100 * between(hips, knees, 0.433) +        // thighs
         2 * 0.0465 * between(knees, ankles, 0.433) +     // shanks
         2 * 0.0145 * between(heels, toes, 0.5);          // feet
}

/// The centre of mass dropped onto the ground line from trail heel (0) to lead heel (1).
std::optional<Ratio> along_stance(const Body& body) {
  return along_ground(centre_of_mass(body), body[heels + 1], body[heels]);
}

/// The centre of mass dropped onto the ground line from mid heels (0) to mid big toes (1).
std::optional<Ratio> along_feet(const Body& body) {
  return along_ground(centre_of_mass(body), middle(body, heels), middle(body, toes));
}

constexpr Placed standing[] = {
    {0.2, 1.4, 0.05},   {-0.2, 1.4, 0.05},   {0.2, 1.1, 0.05},  {-0.2, 1.1, 0.05},
    {0.2, 0.8, 0.05},   {-0.2, 0.8, 0.05},   {0.1, 0.9, 0.05},  {-0.1, 0.9, 0.05},
    {0.1, 0.5, 0.05},   {-0.1, 0.5, 0.05},   {0.1, 0.1, 0.05},  {-0.1, 0.1, 0.05},
    {0.1, 0.0, -0.075}, {-0.1, 0.0, -0.075}, {0.1, 0.0, 0.175}, {-0.1, 0.0, 0.175}};
constexpr Placed trunk_shifted[] = {
    {0.3, 1.4, 0.05},   {-0.1, 1.4, 0.05},   {0.2, 1.1, 0.05},  {-0.2, 1.1, 0.05},
    {0.2, 0.8, 0.05},   {-0.2, 0.8, 0.05},   {0.1, 0.9, 0.05},  {-0.1, 0.9, 0.05},
    {0.1, 0.5, 0.05},   {-0.1, 0.5, 0.05},   {0.1, 0.1, 0.05},  {-0.1, 0.1, 0.05},
    {0.1, 0.0, -0.075}, {-0.1, 0.0, -0.075}, {0.1, 0.0, 0.175}, {-0.1, 0.0, 0.175}};
constexpr WorkedExample stance_examples[] = {
    {standing, 0.5, 1e-9, "by construction"},
    {trunk_shifted, 0.5 + 0.413064 / 2, 1e-9,
     "shoulders 0.1 m over: 0.1 (0.578 x 0.66 + 0.056 x 0.564) m of 0.2 m"},
};
constexpr WorkedExample feet_examples[] = {
    {standing, 0.5, 1e-9, "by construction"},
    {trunk_shifted, 0.5, 1e-9, "by construction: a shift toward the target does not count"},
};

constexpr Rule rule(std::string_view id, std::string_view title, std::string_view sign,
                    std::span<const WorkedExample> examples,
                    std::optional<double> (*measure)(std::span<const Point>), Positions at) {
  return {
      .id = id,
      .title = title,
      .region = Region::balance,
      .dimension = Dimension::ratio,
      .sign = sign,
      .needs = needs,
      .seen_limit_si = 0.1,  // 1.5 in of a stance of 15 in; 1 in of a foot
      .limit =
          "Where the body's weight hangs by a table of average segments, club left out. "
          "Pressure under the feet is not the same thing.",
      .source = "segment model of Winter 2009, table 4.1, from memory",
      .examples = examples,
      .measure = measure,
      .at = at,
  };
}

constexpr Rule rules[] = {
    rule("balance-along-stance", "Balance between the heels",
         "0 over the trail heel, 0.5 in the middle, 1 over the lead heel", stance_examples,
         from<needs, along_stance>,
         Positions::of(Position::address, Position::top, Position::impact, Position::finish)),
    rule("balance-along-feet", "Balance from heels to toes", "0 over the heels, 1 over the toes",
         feet_examples, from<needs, along_feet>, Positions::of(Position::address))};

}  // namespace

extern const RuleSet balance;
constexpr RuleSet balance = rules;

}  // namespace rangecheck::measure
