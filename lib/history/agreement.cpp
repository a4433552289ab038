// SPDX-License-Identifier: MIT
#include "history/agreement.hpp"

#include <algorithm>
#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/non_central_t.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cassert>
#include <cmath>
#include <numeric>
#include <vector>

#include "base/coverage.hpp"

namespace rangecheck::history {
namespace {

constexpr double lower_tail = 0.025, upper_tail = 0.975;

double square(double value) { return value * value; }

double mean_of(std::span<const double> values) {
  return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

double squares_about(std::span<const double> values, double middle) {
  double sum = 0;
  for (const double value : values) sum += square(value - middle);
  return sum;
}

/// How many sd the upper limit may lie above the mean of `pairs` differences.
Interval limit_factors(double pairs) {
  const boost::math::non_central_t distribution(pairs - 1, coverage_factor_95 * std::sqrt(pairs));
  return {quantile(distribution, lower_tail) / std::sqrt(pairs),
          quantile(distribution, upper_tail) / std::sqrt(pairs)};
}

double f_quantile(double tail, double numerator, double denominator) {
  return quantile(boost::math::fisher_f(numerator, denominator), tail);
}

/// Satterthwaite's degrees of freedom of what the interval of ICC(2,1) divides by. All terms are
/// multiplied through, so that no error at all is no division by zero.
double icc_freedom(double icc, const MeanSquares& squares) {
  const auto n = static_cast<double>(squares.targets), k = static_cast<double>(squares.judges);
  const double judges = k * icc * squares.between_judges;
  const double error = (n * (1 + (k - 1) * icc) - k * icc) * squares.error;
  return square(judges + error) / (square(judges) / (k - 1) + square(error) / ((n - 1) * (k - 1)));
}

std::optional<Interval> icc_interval(double icc, const MeanSquares& squares) {
  const auto n = static_cast<double>(squares.targets), k = static_cast<double>(squares.judges);
  const double freedom = icc_freedom(icc, squares);
  if (!std::isfinite(freedom) || freedom <= 0 || squares.error <= 0) return std::nullopt;
  const double b = squares.between_targets, e = squares.error;
  const double rest = k * squares.between_judges + (k * n - k - n) * e;
  const double below = f_quantile(upper_tail, n - 1, freedom),
               above = f_quantile(upper_tail, freedom, n - 1);
  return Interval{n * (b - below * e) / (below * rest + n * b),
                  n * (above * b - e) / (rest + n * above * b)};
}

}  // namespace

std::optional<Differences> differences_of(std::span<const Pair> pairs) {
  if (pairs.size() < least_pairs) return std::nullopt;
  std::vector<double> differences;
  for (const auto& [first, second] : pairs) differences.push_back(second - first);
  const auto n = static_cast<double>(pairs.size());
  const double bias = mean_of(differences);
  const double sd = std::sqrt(squares_about(differences, bias) / (n - 1));
  const double half = quantile(boost::math::students_t(n - 1), upper_tail) * sd / std::sqrt(n);
  const double spread = coverage_factor_95 * sd;
  const auto [near, far] = limit_factors(n);
  return Differences{.pairs = pairs.size(),
                     .bias = bias,
                     .bias_95 = {bias - half, bias + half},
                     .sd = sd,
                     .limits = {bias - spread, bias + spread},
                     .lower_limit_95 = {bias - far * sd, bias - near * sd},
                     .upper_limit_95 = {bias + near * sd, bias + far * sd}};
}

std::optional<Trend> trend_of(std::span<const Pair> pairs) {
  if (pairs.size() < least_pairs) return std::nullopt;
  std::vector<double> sizes, differences;
  for (const auto& [first, second] : pairs) {
    sizes.push_back((first + second) / 2);
    differences.push_back(second - first);
  }
  const double size = mean_of(sizes), bias = mean_of(differences);
  const double xx = squares_about(sizes, size), yy = squares_about(differences, bias);
  if (xx <= 0 || yy <= 0) return std::nullopt;
  double xy = 0;
  for (std::size_t i = 0; i < sizes.size(); ++i) xy += (sizes[i] - size) * (differences[i] - bias);
  const double freedom = static_cast<double>(pairs.size()) - 2;
  const double left = std::max(yy - square(xy) / xx, 0.0);
  if (left == 0) return Trend{xy / xx, 0};
  const double t = xy / xx / std::sqrt(left / freedom / xx);
  return Trend{xy / xx, 2 * cdf(boost::math::students_t(freedom), -std::abs(t))};
}

MeanSquares mean_squares_of(std::span<const double> ratings, std::size_t judges) {
  const std::size_t targets = judges == 0 ? 0 : ratings.size() / judges;
  assert(targets > 1 && judges > 1 && targets * judges == ratings.size());
  const auto n = static_cast<double>(targets), k = static_cast<double>(judges);
  std::vector<double> of_target(targets, 0.0), of_judge(judges, 0.0);
  // From the first one, so that ratings which are all the same have squares of exactly 0.
  const auto rating = [&](std::size_t i) { return ratings[i] - ratings[0]; };
  for (std::size_t i = 0; i < ratings.size(); ++i) {
    of_target[i / judges] += rating(i) / k;
    of_judge[i % judges] += rating(i) / n;
  }
  const double all = mean_of(of_target);
  double within = 0, error = 0;
  for (std::size_t i = 0; i < ratings.size(); ++i) {
    within += square(rating(i) - of_target[i / judges]);
    error += square(rating(i) - of_target[i / judges] - of_judge[i % judges] + all);
  }
  return {.targets = targets,
          .judges = judges,
          .between_targets = k * squares_about(of_target, all) / (n - 1),
          .between_judges = n * squares_about(of_judge, all) / (k - 1),
          .error = error / ((n - 1) * (k - 1)),
          .within_targets = within / (n * (k - 1))};
}

MeanSquares mean_squares_of(std::span<const Pair> pairs) {
  std::vector<double> ratings;
  for (const auto& [first, second] : pairs) {
    ratings.push_back(first);
    ratings.push_back(second);
  }
  return mean_squares_of(ratings, 2);
}

std::optional<Icc> icc_2_1(const MeanSquares& squares) {
  const auto n = static_cast<double>(squares.targets), k = static_cast<double>(squares.judges);
  const double apart = squares.between_targets - squares.error;
  const double all = squares.between_targets + (k - 1) * squares.error +
                     k * (squares.between_judges - squares.error) / n;
  // Not less than the greatest of the squares over n, unless all of them are 0.
  if (all <= 0) return std::nullopt;
  const double icc = apart / all;
  return Icc{icc, icc_interval(icc, squares)};
}

double standard_error_of_measurement(const MeanSquares& squares) {
  return std::sqrt(squares.error);
}

double least_detectable(double standard_error_of_measurement) {
  return coverage_factor_95 * std::sqrt(2.0) * standard_error_of_measurement;
}

std::optional<Kappa> cohen_kappa(std::span<const std::size_t> counts, std::size_t words) {
  assert(counts.size() == words * words);
  const auto total =
      static_cast<double>(std::accumulate(counts.begin(), counts.end(), std::size_t{0}));
  if (total == 0) return std::nullopt;
  std::vector<double> first(words, 0.0), second(words, 0.0);
  const auto share = [&](std::size_t i, std::size_t j) {
    return static_cast<double>(counts[i * words + j]) / total;
  };
  double same = 0, by_chance = 0;
  for (std::size_t i = 0; i < words; ++i) {
    for (std::size_t j = 0; j < words; ++j) {
      first[i] += share(i, j);
      second[j] += share(i, j);
    }
    same += share(i, i);
  }
  for (std::size_t i = 0; i < words; ++i) by_chance += first[i] * second[i];
  const double to_win = 1 - by_chance;
  // Rounding aside this is 0 where there is one word only.
  if (to_win < 1e-12) return std::nullopt;
  const double kappa = (same - by_chance) / to_win;
  double variance = -square(kappa - by_chance * (1 - kappa));
  for (std::size_t i = 0; i < words; ++i)
    for (std::size_t j = 0; j < words; ++j)
      variance += i == j ? share(i, i) * square(1 - (first[i] + second[i]) * (1 - kappa))
                         : square(1 - kappa) * share(i, j) * square(second[i] + first[j]);
  return Kappa{kappa, std::sqrt(std::max(variance, 0.0) / total) / to_win};
}

}  // namespace rangecheck::history
