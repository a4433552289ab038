// SPDX-License-Identifier: MIT
#include "motion/filter.hpp"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>

namespace rangecheck::motion {
namespace {

/// Samples by which each end is extended: three times the coefficients of the filter.
constexpr std::size_t extension = least_filtered - 1;
/// (√2 − 1)^(1/4): two passes of a second-order Butterworth have their 3 dB point lower by this.
const double two_passes = std::pow(std::numbers::sqrt2 - 1, 0.25);

/// Residual analysis tries cut-offs up to this share of the rate …
constexpr double highest_cutoff = 0.45;
/// … and takes those in this range to show only noise: over it the residual of white noise is
/// nearly straight, and its line meets the axis at the noise's size within 1 %.
constexpr double line_from = 0.25, line_to = 0.4;

/// One pass that starts in the steady state of `before`.
void pass(const Biquad& filter, double before, std::vector<double>& samples) {
  const auto& [b, a] = filter;
  const double gain = (b[0] + b[1] + b[2]) / (a[0] + a[1] + a[2]);
  double second = (b[2] - a[2] * gain) * before;
  double first = (b[1] - a[1] * gain) * before + second;
  for (double& sample : samples) {
    const double in = sample;
    sample = b[0] * in + first;
    first = b[1] * in - a[1] * sample + second;
    second = b[2] * in - a[2] * sample;
  }
}

double root_mean_square_between(std::span<const double> a, std::span<const double> b) {
  double sum = 0;
  for (std::size_t i = 0; i < a.size(); ++i) sum += (a[i] - b[i]) * (a[i] - b[i]);
  return std::sqrt(sum / static_cast<double>(a.size()));
}

/// What two passes do to a wave of `cycles` a sample.
double response(const Biquad& filter, double cycles) {
  const std::complex<double> z = std::polar(1.0, -2 * std::numbers::pi * cycles);
  return std::norm((filter.b[0] + z * (filter.b[1] + z * filter.b[2])) /
                   (filter.a[0] + z * (filter.a[1] + z * filter.a[2])));
}

/// Residuals of a range of cut-offs.
struct Residuals {
  std::vector<double> cutoff_hz, residual;
};

Residuals residuals_of(std::span<const double> samples, double rate_hz) {
  constexpr int cutoffs = 45;
  Residuals out;
  for (int i = 1; i <= cutoffs; ++i) {
    const double cutoff_hz = highest_cutoff * rate_hz * i / cutoffs;
    const auto filter = butterworth_2(dual_pass_cutoff(cutoff_hz, rate_hz));
    out.cutoff_hz.push_back(cutoff_hz);
    out.residual.push_back(root_mean_square_between(samples, forward_backward(filter, samples)));
  }
  return out;
}

/// Where the least-squares line through the residuals of cut-offs from `from_hz` to `to_hz` meets
/// the axis.
double intercept(const Residuals& of, double from_hz, double to_hz) {
  double n = 0, x = 0, y = 0, xx = 0, xy = 0;
  for (std::size_t i = 0; i < of.cutoff_hz.size(); ++i) {
    const double f = of.cutoff_hz[i], r = of.residual[i];
    if (f < from_hz || f > to_hz) continue;
    n += 1, x += f, y += r, xx += f * f, xy += f * r;
  }
  return (y * xx - x * xy) / (n * xx - x * x);
}

}  // namespace

double median(std::vector<double> values) {
  if (values.empty()) return 0;
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  if (values.size() % 2 == 1) return *middle;
  return (*middle + *std::max_element(values.begin(), middle)) / 2;
}

Biquad butterworth_2(double cutoff) {
  const double k = std::tan(std::numbers::pi / 2 * cutoff);
  const double scale = 1 / (1 + std::numbers::sqrt2 * k + k * k);
  const double b = k * k * scale;
  return {{b, 2 * b, b},
          {1, 2 * (k * k - 1) * scale, (1 - std::numbers::sqrt2 * k + k * k) * scale}};
}

std::vector<double> forward_backward(const Biquad& filter, std::span<const double> samples) {
  const std::size_t count = samples.size();
  if (count < least_filtered) return {samples.begin(), samples.end()};
  std::vector<double> out;
  out.reserve(count + 2 * extension);
  for (std::size_t i = extension; i > 0; --i) out.push_back(2 * samples[0] - samples[i]);
  out.insert(out.end(), samples.begin(), samples.end());
  for (std::size_t i = 1; i <= extension; ++i)
    out.push_back(2 * samples[count - 1] - samples[count - 1 - i]);
  for (int direction = 0; direction < 2; ++direction) {
    pass(filter, out.front(), out);
    std::reverse(out.begin(), out.end());
  }
  return {out.begin() + extension, out.end() - extension};
}

double dual_pass_cutoff(double cutoff_hz, double rate_hz) {
  constexpr double most = 0.99;
  if (cutoff_hz >= rate_hz / 2) return most;
  const double single = std::tan(std::numbers::pi * cutoff_hz / rate_hz) / two_passes;
  return std::min(2 / std::numbers::pi * std::atan(single), most);
}

double noise_gain(const Biquad& filter) {
  constexpr int points = 512;
  double power = 0;
  for (int i = 0; i < points; ++i) {
    const double gain = response(filter, 0.5 * (i + 0.5) / points);
    power += gain * gain;
  }
  return std::sqrt(power / points);
}

ResidualAnalysis residual_analysis(std::span<const double> samples, double rate_hz) {
  if (samples.size() < least_filtered) return {highest_cutoff * rate_hz, 0};
  const Residuals curve = residuals_of(samples, rate_hz);
  const auto& [cutoff_hz, residual] = curve;
  const double noise = std::max(intercept(curve, line_from * rate_hz, line_to * rate_hz), 0.0);
  const auto below = std::find_if(residual.begin(), residual.end(),
                                  [noise](double each) { return each <= noise; });
  if (below == residual.end()) return {cutoff_hz.back(), noise};
  const auto i = static_cast<std::size_t>(below - residual.begin());
  if (i == 0) return {cutoff_hz.front(), noise};
  const double share = (residual[i - 1] - noise) / (residual[i - 1] - residual[i]);
  return {cutoff_hz[i - 1] + share * (cutoff_hz[i] - cutoff_hz[i - 1]), noise};
}

std::vector<bool> outliers(std::span<const double> samples, std::size_t reach, double times,
                           double floor) {
  std::vector<bool> out(samples.size());
  // Most tracks have none: nothing is farther from a median than all samples are spread.
  const auto [least, most] = std::minmax_element(samples.begin(), samples.end());
  if (samples.empty() || *most - *least <= floor) return out;
  for (std::size_t i = 0; i < samples.size(); ++i) {
    const std::size_t first = i - std::min(i, reach);
    const std::size_t last = std::min(i + reach + 1, samples.size());
    std::vector<double> around(samples.begin() + static_cast<std::ptrdiff_t>(first),
                               samples.begin() + static_cast<std::ptrdiff_t>(last));
    const double centre = median(around);
    for (double& each : around) each = std::abs(each - centre);
    const double spread = deviation_over_mad * median(std::move(around));
    out[i] = std::abs(samples[i] - centre) > std::max(times * spread, floor);
  }
  return out;
}

}  // namespace rangecheck::motion
