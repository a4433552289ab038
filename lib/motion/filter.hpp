// SPDX-License-Identifier: MIT
// Filters for evenly spaced samples: pure functions, no golf.
#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <vector>

namespace rangecheck::motion {

/// y[n] = b0 x[n] + b1 x[n−1] + b2 x[n−2] − a1 y[n−1] − a2 y[n−2].
struct Biquad {
  std::array<double, 3> b{1, 0, 0};
  std::array<double, 3> a{1, 0, 0};  ///< a[0] = 1
};

/// Second-order Butterworth low-pass by the bilinear transform. `cutoff` in half-cycles a sample
/// (1 = Nyquist), in (0, 1).
Biquad butterworth_2(double cutoff);

/// `filter` forward, then backward: no lag, twice the order (a 4th-order response from
/// butterworth_2; pass `dual_pass_cutoff` of the wanted cut-off). Ends are extended by odd
/// reflection of 3 × 3 samples and the filter starts in its steady state, as usual for such
/// filters. Fewer than `least_filtered` samples are returned as they are.
inline constexpr std::size_t least_filtered = 10;
std::vector<double> forward_backward(const Biquad& filter, std::span<const double> samples);

/// The single-pass cut-off with which a forward-backward pass of butterworth_2 has its 3 dB point
/// at `cutoff_hz`: divided by (√2 − 1)^(1/4) = 0.802 in the bilinear domain (Winter, Biomechanics
/// and Motor Control of Human Movement, 4th ed. 2009, 2.2.4.4, from memory). Returned in
/// half-cycles a sample, at most 0.99.
double dual_pass_cutoff(double cutoff_hz, double rate_hz);

/// What `forward_backward` leaves of white noise, over what went in: the root of the sum of its
/// squared impulse response.
double noise_gain(const Biquad& filter);

/// Residual analysis (Winter 2009, 2.2.4.5, from memory): the root mean square of what the filter
/// takes away, over cut-offs; a straight line through its right-hand part, where only noise is
/// left, meets the axis at the noise's size; the cut-off is where the residual first falls to it.
/// That part is taken to be cut-offs from 0.25 to 0.4 of the rate. Too few samples to filter give
/// the highest cut-off, 0.45 of the rate, and no noise.
struct ResidualAnalysis {
  double cutoff_hz = 0;
  double noise = 0;  ///< intercept of the line: root mean square of the noise, unit of the samples
};
ResidualAnalysis residual_analysis(std::span<const double> samples, double rate_hz);

/// The middle one, or the mean of the middle two; 0 of none.
double median(std::vector<double> values);
/// A normal distribution's standard deviation over its median absolute deviation.
inline constexpr double deviation_over_mad = 1.4826;

/// Which samples are outliers: farther from the median of the 2·reach + 1 around them than
/// `times` × 1.4826 × their median absolute deviation, but at least `floor` (Hampel 1974).
std::vector<bool> outliers(std::span<const double> samples, std::size_t reach, double times,
                           double floor);

}  // namespace rangecheck::motion
