// SPDX-License-Identifier: MIT
#include "grade/tolerance.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <numeric>
#include <random>
#include <unsupported/Eigen/SpecialFunctions>
#include <vector>

#include "motion/filter.hpp"

namespace rangecheck::grade {
namespace {

/// P(Z ≤ z).
double below(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }

/// Where the rising function `f` reaches `wanted` between two points, by halving.
template <class F>
double where(F f, double wanted, double low, double high) {
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    (f(middle) < wanted ? low : high) = middle;
  }
  return (low + high) / 2;
}

/// How far the limits have to lie from `middle`, in standard deviations of N(0, 1), to hold the
/// share `cover` of it; for one side less than 0 where `middle` is beyond that already.
double reach(double middle, double cover, Sides sides) {
  if (sides == Sides::one) return where(below, cover, -10, 10) - middle;
  const auto held = [middle](double r) { return below(middle + r) - below(middle - r); };
  return where(held, cover, 0, 20 + std::abs(middle));
}

/// Finite-sample corrections of Qn: Croux & Rousseeuw, in Computational Statistics 1 (1992),
/// 411-428, from memory.
double qn_correction(std::size_t n) {
  constexpr std::array small = {0.399, 0.994, 0.512, 0.844, 0.611, 0.857, 0.669, 0.872};  // 2 to 9
  if (n < 10) return small[n - 2];
  const auto many = static_cast<double>(n);
  return many / (many + (n % 2 == 1 ? 1.4 : 3.8));
}

double qn(std::span<const double> values) {
  const std::size_t n = values.size();
  std::vector<double> apart;
  apart.reserve(n * (n - 1) / 2);
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < i; ++j) apart.push_back(std::abs(values[i] - values[j]));
  const std::size_t half = n / 2 + 1;
  const auto at = apart.begin() + static_cast<std::ptrdiff_t>(half * (half - 1) / 2 - 1);
  std::ranges::nth_element(apart, at);
  constexpr double consistent = 2.2219;  // for a normal population: Rousseeuw & Croux 1993
  return consistent * qn_correction(n) * *at;
}

/// Values farther from the middle than this many of the rough spread count as if they were there:
/// 3 leaves nearly every value of a normal sample as it is (common practice, no source).
constexpr double farthest_that_counts = 3;

/// Huber's estimate of location: the mean of the values drawn in to `bound` of it.
double drawn_in_mean(std::span<const double> values, double start, double bound) {
  double middle = start;
  for (int i = 0; i < 50; ++i) {
    double sum = 0;
    for (const double value : values) sum += std::clamp(value - middle, -bound, bound);
    const double step = sum / static_cast<double>(values.size());
    middle += step;
    if (std::abs(step) < 1e-9 * bound) break;
  }
  return middle;
}

/// The standard deviation about `middle` of the values drawn in to `bound` of it.
double drawn_in_deviation(std::span<const double> values, double middle, double bound) {
  double squares = 0;
  for (const double value : values)
    squares += std::pow(std::clamp(value - middle, -bound, bound), 2);
  return std::sqrt(squares / (static_cast<double>(values.size()) - 1));
}

/// Standard normal numbers, the same in every build: Box and Muller's method, since the standard
/// library's distributions differ from one to the next.
class MadeUp {
 public:
  void fill(std::vector<double>& values) {
    for (double& value : values)
      value = std::sqrt(-2 * std::log(1 - uniform())) * std::cos(2 * std::numbers::pi * uniform());
  }

 private:
  double uniform() { return static_cast<double>(bits_() >> 11) * 0x1p-53; }
  std::mt19937_64 bits_;  // its default seed: the standard says which
};

std::size_t samples_for(std::size_t n) {
  // The time that Qn takes grows with n².
  return std::clamp<std::size_t>(10'000 * 3600 / (n * n), 2000, 10'000);
}

}  // namespace

Sample plain_sample(std::span<const double> values) {
  const auto n = static_cast<double>(values.size());
  const double mean = std::accumulate(values.begin(), values.end(), 0.0) / n;
  double squares = 0;
  for (const double value : values) squares += (value - mean) * (value - mean);
  return {mean, std::sqrt(squares / (n - 1))};
}

Sample robust_sample(std::span<const double> values) {
  const double rough = qn(values);
  const double start = motion::median({values.begin(), values.end()});
  if (!(rough > 0)) return {start, 0};
  const double middle = drawn_in_mean(values, start, 1.5 * rough);
  return {middle, drawn_in_deviation(values, middle, farthest_that_counts * rough)};
}

double plain_factor(std::size_t n, Holding holding, Sides sides) {
  // The sample's mean is at t/√n with the density of t, and independently of it (n−1)s² is a
  // chi-squared number: k holds where s is large enough for the reach from that mean
  // (Krishnamoorthy & Mathew, Statistical Tolerance Regions, 2009, 2.3, from memory).
  constexpr int steps = 400;
  constexpr double farthest = 8;
  const double root_n = std::sqrt(static_cast<double>(n));
  std::array<double, steps + 1> weight{}, reaches{};
  for (int i = 0; i <= steps; ++i) {
    const double t = farthest * (2.0 * i / steps - 1);
    const double simpson = i == 0 || i == steps ? 1 : i % 2 == 1 ? 4 : 2;
    weight[i] = simpson / 3 * (2 * farthest / steps) * std::exp(-t * t / 2) /
                std::sqrt(2 * std::numbers::pi);
    reaches[i] = reach(t / root_n, holding.cover, sides);
  }
  const double half_freedom = (static_cast<double>(n) - 1) / 2;
  const auto held = [&](double k) {
    double probability = 0;
    for (int i = 0; i <= steps; ++i) {
      const double ratio = std::max(0.0, reaches[i]) / k;
      probability += weight[i] * Eigen::numext::igammac(half_freedom, half_freedom * ratio * ratio);
    }
    return probability;
  };
  return where(held, holding.confidence, 1e-3, 1e4);
}

double robust_factor(std::size_t n, Holding holding, Sides sides) {
  MadeUp made_up;
  std::vector<double> values(n);
  std::vector<double> factors(samples_for(n));
  for (double& factor : factors) {
    made_up.fill(values);
    const Sample sample = robust_sample(values);
    factor = reach(sample.middle, holding.cover, sides) / sample.spread;
  }
  const auto at = static_cast<std::ptrdiff_t>(
      std::ceil(holding.confidence * static_cast<double>(factors.size())) - 1);
  std::ranges::nth_element(factors, factors.begin() + at);
  return factors[static_cast<std::size_t>(at)];
}

double Factors::plain(std::size_t n, Sides sides) {
  const auto [at, is_new] = plain_.try_emplace({n, sides}, 0);
  if (is_new) at->second = plain_factor(n, holding_, sides);
  return at->second;
}

double Factors::robust(std::size_t n, Sides sides) {
  const auto [at, is_new] = robust_.try_emplace({n, sides}, 0);
  if (is_new) at->second = robust_factor(n, holding_, sides);
  return at->second;
}

}  // namespace rangecheck::grade
