// SPDX-License-Identifier: MIT
#include "measure/rule.hpp"

namespace rangecheck::measure {
namespace {

constexpr Moment moments[] = {Moment::top, Moment::impact};

/// From the top to impact.
std::optional<Duration> downswing(const std::array<double, 2>& times_s) {
  return Duration::seconds(times_s[1] - times_s[0]);
}

constexpr double frames_of_30_hz[] = {0.8, 0.8 + 8 / 30.0};
constexpr WorkedExample examples[] = {
    {.points = {},
     .expected = 8 / 30.0,
     .within = 1e-9,
     .source = "8 frames at 30 Hz: Grober & Cholewicki 2006, arXiv physics/0611291",
     .times_s = frames_of_30_hz}};

constexpr Rule rules[] = {{
    .id = "downswing-time",
    .title = "Downswing time",
    .region = Region::timing,
    .dimension = Dimension::time,
    .sign = "from the top to impact",
    .needs = {},
    .seen_limit_si = 0.025,  // a tenth of a downswing
    .limit = "The top is where the club or the hands turn round: the hips have started by then.",
    .source = "top to impact, own definition",
    .examples = examples,
    .at = Positions(),
    .moments = moments,
    .measure_times = from_times<moments, downswing>,
}};

}  // namespace

extern const RuleSet downswing_time;
constexpr RuleSet downswing_time = rules;

}  // namespace rangecheck::measure
