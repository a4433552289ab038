// SPDX-License-Identifier: MIT
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr Moment moments[] = {Moment::address, Moment::top, Moment::impact};

/// Backswing time over downswing time. Undefined when the downswing takes none.
std::optional<Ratio> tempo(const std::array<double, 3>& times_s) {
  const auto& [address_s, top_s, impact_s] = times_s;
  constexpr double shortest_s = 1e-6;
  if (impact_s - top_s < shortest_s) return std::nullopt;
  return Ratio{(top_s - address_s) / (impact_s - top_s)};
}

constexpr double three_to_one[] = {0, 24 / 30.0, 32 / 30.0};
constexpr double slow_back[] = {10, 11, 11.25};
constexpr WorkedExample examples[] = {
    {.points = {},
     .expected = 3,
     .within = 1e-9,
     .source = "24 and 8 frames at 30 Hz: Grober & Cholewicki 2006, arXiv physics/0611291",
     .times_s = three_to_one},
    {.points = {},
     .expected = 4,
     .within = 1e-9,
     .source = "by construction",
     .times_s = slow_back},
};

constexpr Rule rules[] = {{
    .id = "tempo-ratio",
    .title = "Tempo (backswing over downswing)",
    .region = Region::timing,
    .dimension = Dimension::ratio,
    .sign = "1 both take as long, 3 backswing three times as long",
    .needs = {},
    // Events to half a frame leave 0.18 at 30 Hz, to a whole one 0.37; bands are about 1 wide.
    .seen_limit_si = 0.3,
    .limit =
        "The top counts twice, in both times: at 30 frames a second half a frame of it is 0.25.",
    .source = "backswing over downswing: Grober & Cholewicki 2006, arXiv physics/0611291",
    .examples = examples,
    .at = Positions(),
    .moments = moments,
    .measure_times = from_times<moments, tempo>,
}};

}  // namespace

extern const RuleSet tempo_ratio;
constexpr RuleSet tempo_ratio = rules;

}  // namespace rangecheck::measure
