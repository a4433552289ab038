// SPDX-License-Identifier: MIT
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr Moment moments[] = {Moment::address, Moment::top};

/// From the last still moment to the top.
std::optional<Duration> backswing(const std::array<double, 2>& times_s) {
  return Duration::seconds(times_s[1] - times_s[0]);
}

constexpr double frames_of_30_hz[] = {0, 24 / 30.0};
constexpr WorkedExample examples[] = {
    {.points = {},
     .expected = 0.8,
     .within = 1e-9,
     .source = "24 frames at 30 Hz: Grober & Cholewicki 2006, arXiv physics/0611291",
     .times_s = frames_of_30_hz}};

constexpr Rule rules[] = {{
    .id = "backswing-time",
    .title = "Backswing time",
    .region = Region::timing,
    .dimension = Dimension::time,
    .sign = "from the last still moment to the top",
    .needs = {},
    .seen_limit_si = 0.05,  // half of what a coach hears: 0.7 s from 0.8 s
    .limit = "Where a slow start begins is a matter of a few hundredths of a second.",
    .source = "address to top, own definition",
    .examples = examples,
    .at = Positions(),
    .moments = moments,
    .measure_times = from_times<moments, backswing>,
}};

}  // namespace

extern const RuleSet backswing_time;
constexpr RuleSet backswing_time = rules;

}  // namespace rangecheck::measure
