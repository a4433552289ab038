// SPDX-License-Identifier: MIT
#include "motion/smooth.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <span>

#include "motion/filter.hpp"
#include "motion/raw.hpp"

namespace rangecheck::motion {
namespace {

using State = Series::State;

/// No cut-off is lower, so that the hands' path through impact comes out whole: see smooth.hpp.
constexpr double lowest_cutoff_hz = 16;
constexpr double highest_cutoff = 0.45;
/// The part of a film over which the cut-off is chosen: that with the most movement. Over a whole
/// film still stretches would choose it.
constexpr double moving_part_s = 1;
constexpr std::size_t least_moving_part = 20;
/// An outlier lies off its neighbours' cubic by at least this share of the golfer's height in the
/// picture, 4 cm, and by `outlier_at_30`, 19 cm, at 30 frames a second: hands that strike lie off
/// by up to 6 cm there and by 1.5 cm at 60 (made-up swings).
constexpr double outlier_floor = 0.03, outlier_at_30 = 0.13;
/// A point here and there goes wrong in every film: people are told of more than this share.
constexpr double noteworthy_share = 0.01;
/// Steps between frames up to this many usual ones are no gap.
constexpr double no_gap = 1.5;
/// A moment nearer to a frame than this share of a step is the frame's.
constexpr double on_frame = 1e-6;

/// Median over frames of how far the landmarks reach from top to bottom.
double height_px(const pose::Track& track) {
  std::vector<double> heights;
  for (const auto& frame : track.frames) {
    if (!frame.person) continue;
    std::optional<double> top, bottom;
    for (const auto& point : frame.person->image.values()) {
      if (!point) continue;
      top = std::min(top.value_or(point->at.y_px), point->at.y_px);
      bottom = std::max(bottom.value_or(point->at.y_px), point->at.y_px);
    }
    if (top) heights.push_back(*bottom - *top);
  }
  return median(std::move(heights));
}

/// A value between raw samples, of one axis.
struct Between {
  double value_px = 0;
  double u_px = 0;  ///< what the interpolation adds, without the samples' noise
};

/// Between samples `next` − 1 and `next`: the cubic through two on either side, or straight where
/// there are not two. Its uncertainty is half of what the cubic differs from the straight line.
Between between(const Raw& raw, const std::vector<double>& samples, std::size_t next, double at_s) {
  const double share = (at_s - raw.time_s[next - 1]) / (raw.time_s[next] - raw.time_s[next - 1]);
  const double straight = samples[next - 1] + share * (samples[next] - samples[next - 1]);
  if (next < 2 || next + 1 >= samples.size()) return {straight, 0};
  const auto weights = cubic_weights(
      {raw.time_s[next - 2], raw.time_s[next - 1], raw.time_s[next], raw.time_s[next + 1]}, at_s);
  double cubic = 0;
  for (std::size_t k = 0; k < weights.size(); ++k) cubic += weights[k] * samples[next - 2 + k];
  return {cubic, std::abs(cubic - straight) / 2};
}

/// A landmark on the even clock, unfiltered. `u_px` is what filling adds.
struct Resampled {
  Series series;
  std::vector<double> noise_px;  ///< of the raw points about each sample
};

Resampled resampled(const Raw& raw, double step_s, std::size_t count) {
  const Noise noise = noise_of(raw, step_s);
  Series out;
  std::vector<double> noise_px(count);
  out.noise_px = noise.usual_px;
  for (auto* values : {&out.x_px, &out.y_px, &out.confidence, &out.u_px}) values->resize(count);
  out.state.resize(count, State::missing);
  std::size_t next = 0;  // the first raw sample after the moment
  for (std::size_t k = 0; k < count; ++k) {
    const double at_s = step_s * static_cast<double>(k);
    while (next < raw.count() && raw.time_s[next] <= at_s + on_frame * step_s) ++next;
    if (next == 0) continue;
    noise_px[k] = noise.here_px[next - 1];
    if (at_s - raw.time_s[next - 1] <= on_frame * step_s) {
      out.x_px[k] = raw.x_px[next - 1];
      out.y_px[k] = raw.y_px[next - 1];
      out.confidence[k] = raw.confidence[next - 1];
      out.state[k] = State::seen;
      continue;
    }
    if (next == raw.count()) break;
    const double apart_s = raw.time_s[next] - raw.time_s[next - 1];
    const bool gap = apart_s > no_gap * step_s;
    if (gap && apart_s - step_s > longest_filled_gap_s) continue;
    const auto x = between(raw, raw.x_px, next, at_s), y = between(raw, raw.y_px, next, at_s);
    const double share = (at_s - raw.time_s[next - 1]) / apart_s;
    out.x_px[k] = x.value_px;
    out.y_px[k] = y.value_px;
    out.u_px[k] = gap ? std::hypot(x.u_px, y.u_px) : 0;
    out.confidence[k] =
        raw.confidence[next - 1] + share * (raw.confidence[next] - raw.confidence[next - 1]);
    out.state[k] = gap ? State::filled : State::seen;
  }
  return {std::move(out), std::move(noise_px)};
}

/// First and one past the last of a run of samples that are not missing.
struct Run {
  std::size_t first = 0, end = 0;
  std::size_t count() const { return end - first; }
};

std::vector<Run> runs_of(const std::vector<State>& state) {
  std::vector<Run> out;
  for (std::size_t k = 0; k < state.size(); ++k) {
    if (state[k] == State::missing) continue;
    if (out.empty() || out.back().end != k) out.push_back({k, k});
    out.back().end = k + 1;
  }
  return out;
}

std::span<const double> part(const std::vector<double>& values, Run run) {
  return std::span(values).subspan(run.first, run.count());
}

/// The part of `run`, of `count` samples at most, over which the landmark moves most.
Run most_moving(const Series& series, Run run, std::size_t count) {
  if (run.count() <= count) return run;
  std::vector<double> way{0};
  for (std::size_t k = run.first + 1; k < run.end; ++k)
    way.push_back(way.back() + std::hypot(series.x_px[k] - series.x_px[k - 1],
                                          series.y_px[k] - series.y_px[k - 1]));
  std::size_t best = 0;
  for (std::size_t i = 0; i + count <= way.size(); ++i)
    if (way[i + count - 1] - way[i] > way[best + count - 1] - way[best]) best = i;
  return {run.first + best, run.first + best + count};
}

/// The larger of what the two axes ask for.
double cutoff_of(const Series& series, const std::vector<Run>& runs, double rate_hz) {
  const auto longest = std::max_element(runs.begin(), runs.end(),
                                        [](Run a, Run b) { return a.count() < b.count(); });
  const auto moving =
      std::max(least_moving_part, static_cast<std::size_t>(std::lround(moving_part_s * rate_hz)));
  const Run run = most_moving(series, *longest, moving);
  const double asked = std::max(residual_analysis(part(series.x_px, run), rate_hz).cutoff_hz,
                                residual_analysis(part(series.y_px, run), rate_hz).cutoff_hz);
  return std::min(std::max(asked, lowest_cutoff_hz), highest_cutoff * rate_hz);
}

/// Filters one run; `u_px` becomes the uncertainty of what comes out.
void filter_run(Resampled& of, Run run, const Biquad& filter, double reach) {
  auto& [series, noise_px] = of;
  for (auto* axis : {&series.x_px, &series.y_px}) {
    const auto smooth = forward_backward(filter, part(*axis, run));
    std::copy(smooth.begin(), smooth.end(), axis->begin() + static_cast<std::ptrdiff_t>(run.first));
  }
  const double gain = noise_gain(filter);
  for (std::size_t k = run.first; k < run.end; ++k) {
    // At its ends the run is held by the last sample, noise and all.
    const double to_end = static_cast<double>(std::min(k - run.first, run.end - 1 - k));
    const double here = 1 + (gain - 1) * std::min(1.0, to_end / reach);
    series.u_px[k] = std::hypot(here * noise_px[k], series.u_px[k]);
  }
}

Series smooth_one(const Raw& raw, double step_s, std::size_t count) {
  Resampled out = resampled(raw, step_s, count);
  const auto runs = runs_of(out.series.state);
  if (runs.empty()) return std::move(out.series);
  const double rate_hz = 1 / step_s;
  const double cutoff_hz = cutoff_of(out.series, runs, rate_hz);
  const auto filter = butterworth_2(dual_pass_cutoff(cutoff_hz, rate_hz));
  for (const Run run : runs) {
    const bool long_enough = run.count() >= least_filtered;
    if (long_enough) out.series.cutoff_hz = cutoff_hz;
    filter_run(out, run, long_enough ? filter : Biquad{}, rate_hz / cutoff_hz / 2);
  }
  return std::move(out.series);
}

bool known(const Series& series, std::size_t k) {
  return k < series.state.size() && series.state[k] != State::missing;
}

/// Central difference over one step; to the one side where the other has no sample.
double slope_at(const Series& series, const std::vector<double>& axis, std::size_t k) {
  const bool before = k > 0 && known(series, k - 1), after = known(series, k + 1);
  if (!before && !after) return 0;
  const std::size_t from = before ? k - 1 : k, to = after ? k + 1 : k;
  return (axis[to] - axis[from]) / static_cast<double>(to - from);
}

struct Curve {
  double value = 0, slope = 0;  ///< slope over one step
};

/// The cubic that has both samples' places and slopes.
Curve curve(const Series& series, const std::vector<double>& axis, std::size_t k, double share) {
  const double from = axis[k], slope_from = slope_at(series, axis, k);
  if (share == 0) return {from, slope_from};
  const double to = axis[k + 1], slope_to = slope_at(series, axis, k + 1);
  const double t = share, t2 = t * t, t3 = t2 * t;
  return {(2 * t3 - 3 * t2 + 1) * from + (t3 - 2 * t2 + t) * slope_from + (3 * t2 - 2 * t3) * to +
              (t3 - t2) * slope_to,
          (6 * t2 - 6 * t) * (from - to) + (3 * t2 - 4 * t + 1) * slope_from +
              (3 * t2 - 2 * t) * slope_to};
}

/// At sample k, or `share` of the way to the next.
std::optional<InstantPoint> point_at(const Series& series, std::size_t k, double share,
                                     double step_s) {
  const std::size_t next = share > 0 ? k + 1 : k;
  if (!known(series, k) || !known(series, next)) return std::nullopt;
  const Curve x = curve(series, series.x_px, k, share), y = curve(series, series.y_px, k, share);
  const auto straight = [&](const std::vector<double>& of) {
    return of[k] + share * (of[next] - of[k]);
  };
  return InstantPoint{
      .at = {x.value, y.value},
      .velocity_px_s = {x.slope / step_s, y.slope / step_s},
      .jitter_u_px = straight(series.u_px),
      .confidence = straight(series.confidence),
      .filled = series.state[k] == State::filled || series.state[next] == State::filled};
}

}  // namespace

Instant SmoothTrack::at(Duration time, Duration standard_uncertainty) const {
  Instant out{
      .points = {}, .spatial = {}, .time = time, .standard_uncertainty = standard_uncertainty};
  const double place = samples == 0 ? -1 : (time.in_seconds() - start_s) / step_s;
  if (!(place >= -on_frame && place <= static_cast<double>(samples - 1) + on_frame)) return out;
  const double nearest = std::round(place);
  const bool on_sample = std::abs(place - nearest) <= on_frame;
  const double before = on_sample ? nearest : std::floor(place);
  const double share = on_sample ? 0 : place - before;
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const auto& series = landmarks.values()[i];
    if (!series) continue;
    out.points.values()[i] = point_at(*series, static_cast<std::size_t>(before), share, step_s);
  }
  return out;
}

SmoothTrack smooth(const pose::Track& track, const Clock& clock) {
  SmoothTrack out;
  out.step_s = clock.step_s;
  if (track.frames.empty()) return out;
  out.samples = 1 + static_cast<std::size_t>(clock.time_s.back() / clock.step_s + on_frame);
  const double floor_px =
      std::max(outlier_floor, outlier_at_30 * std::pow(30 * clock.step_s, 1.5)) * height_px(track);
  std::size_t given = 0, taken = 0, filled = 0;
  for (std::size_t i = 0; i < landmark_count; ++i) {
    Raw raw = raw_of(track, clock, i);
    if (raw.count() == 0) continue;
    given += raw.count();
    taken += take_outliers_out(raw, clock.step_s, floor_px);
    auto& series = out.landmarks.values()[i].emplace(smooth_one(raw, out.step_s, out.samples));
    filled += static_cast<std::size_t>(
        std::count(series.state.begin(), series.state.end(), State::filled));
  }
  const auto noteworthy = [given](std::size_t count) {
    return static_cast<double>(count) > noteworthy_share * static_cast<double>(given);
  };
  if (noteworthy(taken)) out.notes.push_back({"track.outliers", {{"count", taken}}});
  if (noteworthy(filled)) out.notes.push_back({"track.filled", {{"count", filled}}});
  return out;
}

}  // namespace rangecheck::motion
