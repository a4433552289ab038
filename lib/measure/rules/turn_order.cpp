// SPDX-License-Identifier: MIT
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr Moment pelvis_chest[] = {Moment::pelvis_peak, Moment::chest_peak};
constexpr Moment chest_arms[] = {Moment::chest_peak, Moment::arms_peak};
constexpr Moment arms_club[] = {Moment::arms_peak, Moment::club_peak};

/// How much later the second moment is than the first.
std::optional<Duration> gap(const std::array<double, 2>& times_s) {
  return Duration::seconds(times_s[1] - times_s[0]);
}

constexpr double in_order[] = {1.15, 1.18};
constexpr double out_of_order[] = {1.2, 1.19};
constexpr WorkedExample examples[] = {
    {.points = {},
     .expected = 0.03,
     .within = 1e-9,
     .source = "by construction",
     .times_s = in_order},
    {.points = {},
     .expected = -0.01,
     .within = 1e-9,
     .source = "by construction",
     .times_s = out_of_order},
};

template <const auto& moments>
constexpr Rule rule(std::string_view id, std::string_view title, std::string_view limit) {
  return {
      .id = id,
      .title = title,
      .region = Region::timing,
      .dimension = Dimension::time,
      .sign = "between their greatest speeds of turn on the way down: positive in this order",
      .needs = {},
      .seen_limit_si = 0.015,  // the gaps themselves are a few hundredths of a second
      .limit = limit,
      .source = "order of greatest speeds from the ground up: common practice, no source",
      .examples = examples,
      .at = Positions(),
      .moments = moments,
      .measure_times = from_times<moments, gap>,
  };
}

constexpr Rule rules[] = {
    rule<pelvis_chest>(
        "chest-after-pelvis", "Chest fastest after the pelvis",
        "When, not how fast. Hips and shoulders blur on a film of 30 frames a second."),
    rule<chest_arms>("arms-after-chest", "Arms fastest after the chest",
                     "When, not how fast. The arms carry the shoulder joints along."),
    rule<arms_club>("club-after-arms", "Club fastest after the arms",
                    "When, not how fast. Needs club points through the downswing."),
};

}  // namespace

extern const RuleSet turn_order;
constexpr RuleSet turn_order = rules;

}  // namespace rangecheck::measure
