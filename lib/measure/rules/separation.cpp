// SPDX-License-Identifier: MIT
#include "measure/turn.hpp"

namespace rangecheck::measure {
namespace {

/// Shoulder turn about the trunk less hip turn about the vertical, in (−180°, 180°]. Undefined
/// where either is.
std::optional<Angle> separation_of(const std::array<Point, 8>& given) {
  const auto shoulders = turn::of_shoulders(given);
  const auto hips = turn::of_hips({given[2], given[3], given[6], given[7]});
  if (!shoulders || !hips) return std::nullopt;
  return wrapped(*shoulders - *hips);
}

constexpr Placed wound[] = {{0, 1.18, 0.46},     {0, 1.42, 0.14}, {0.08, 0.9, 0.06},
                            {-0.08, 0.9, -0.06}, {0.2, 1.3, 0.3}, {-0.2, 1.3, 0.3},
                            {0.1, 0.9, 0},       {-0.1, 0.9, 0}};
constexpr Placed hips_ahead[] = {{0.2, 1.3, 0.3},    {-0.2, 1.3, 0.3}, {0.06, 0.9, -0.08},
                                 {-0.06, 0.9, 0.08}, {0.2, 1.3, 0.3},  {-0.2, 1.3, 0.3},
                                 {0.1, 0.9, 0},      {-0.1, 0.9, 0}};
constexpr WorkedExample examples[] = {
    {wound, 53.130102354156, 1e-9, "by construction: shoulders 90 deg, hips 36.87 deg"},
    {hips_ahead, 53.130102354156, 1e-9, "by construction: shoulders unturned, hips 53.13 deg open"},
};

constexpr Rule rules[] = {{
    .id = "separation",
    .title = "Separation (shoulder turn less hip turn)",
    .region = Region::shoulders,
    .dimension = Dimension::angle,
    .sign = "0 turned alike since address, positive shoulders turned back more",
    .needs = turn::trunk,
    .seen_limit_si = Angle::degrees(8).in_radians(),  // that of the hips, and the shoulders' own
    .limit = "Shoulders about the trunk, hips about the vertical: other definitions give other "
             "numbers, so compare only what was measured alike.",
    .source = "own definition; that methods are not comparable: Bourgain et al. 2022, Sports 10:91",
    .examples = examples,
    .measure = from<turn::trunk, turn::trunk, separation_of>,
    .at = Positions::from(Position::lead_arm_parallel_back, Position::impact),
    .address_needs = turn::trunk,
}};

}  // namespace

extern const RuleSet separation;
constexpr RuleSet separation = rules;

}  // namespace rangecheck::measure
