// SPDX-License-Identifier: MIT
#include "grade/tolerance.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <random>
#include <vector>

namespace rangecheck::grade {
namespace {

TEST_CASE("tolerance: two-sided factors are those of the tables") {
  // Berthouex & Brown, Statistics for Environmental Engineers, table 21.1: 95 % confidence, shares
  // of 0.90, 0.95 and 0.99; two decimals.
  struct Row {
    std::size_t n;
    double k90, k95, k99;
  };
  for (const Row& row :
       {Row{4, 5.37, 6.34, 8.22}, Row{5, 4.29, 5.08, 6.60}, Row{8, 3.16, 3.75, 4.89},
        Row{10, 2.86, 3.39, 4.44}, Row{20, 2.32, 2.76, 3.62}, Row{30, 2.15, 2.55, 3.35}}) {
    CAPTURE(row.n);
    // Half of the last decimal, and what the table's own rounding leaves.
    CHECK(plain_factor(row.n, {0.90, 0.95}, Sides::two) == doctest::Approx(row.k90).epsilon(0.003));
    CHECK(plain_factor(row.n, {0.95, 0.95}, Sides::two) == doctest::Approx(row.k95).epsilon(0.003));
    CHECK(plain_factor(row.n, {0.99, 0.95}, Sides::two) == doctest::Approx(row.k99).epsilon(0.003));
  }
  // ISO 16269-6, two-sided, unknown mean and standard deviation: from memory.
  CHECK(std::abs(plain_factor(10, {0.95, 0.95}, Sides::two) - 3.3935) < 5e-4);
  CHECK(std::abs(plain_factor(2, {0.90, 0.95}, Sides::two) - 31.0923) < 5e-4);
}

TEST_CASE("tolerance: one-sided factors are those of the noncentral t distribution") {
  // real-statistics.com, tolerance intervals, example 1: n = 40, 90 % at 99 %, by noncentral t.
  CHECK(std::abs(plain_factor(40, {0.90, 0.99}, Sides::one) - 1.9017) < 1e-4);
  // NIST/SEMATECH e-Handbook 7.2.6.3, n = 43, 90 % at 99 %, by noncentral t: 1.8740, from memory.
  CHECK(std::abs(plain_factor(43, {0.90, 0.99}, Sides::one) - 1.8740) < 1e-4);
}

/// Normal numbers that are not those the factors were found with.
class Population {
 public:
  std::vector<double> sample(std::size_t n, double mean = 0, double deviation = 1) {
    std::vector<double> out(n);
    for (double& value : out) value = mean + deviation * normal_(bits_);
    return out;
  }

 private:
  std::mt19937 bits_{20261128};
  std::normal_distribution<double> normal_;
};

double below(double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); }

/// How often of `runs` an interval holds 90 % of the population that its sample is from. `also` is
/// the standard deviation of what measuring adds.
double share_that_holds(std::size_t n, double also, int runs) {
  Population population;
  const double k = robust_factor(n, {0.90, 0.95}, Sides::two);
  int held = 0;
  for (int run = 0; run < runs; ++run) {
    const auto sample = robust_sample(population.sample(n, 7, std::hypot(2, also)));
    const double low = sample.middle - k * sample.spread, high = sample.middle + k * sample.spread;
    held += below((high - 7) / 2) - below((low - 7) / 2) >= 0.90;
  }
  return static_cast<double>(held) / runs;
}

TEST_CASE("tolerance: a robust interval holds what it says as often as it says") {
  // Standard error of 10 000 runs 0.22 %, of the factor's own samples as much: 0.31 % together.
  for (const std::size_t n : {5, 10, 20}) {
    CAPTURE(n);
    CHECK(std::abs(share_that_holds(n, 0, 10'000) - 0.95) < 4 * 0.0031);
  }
}

TEST_CASE("tolerance: what measuring adds makes an interval wider, never too narrow") {
  CHECK(share_that_holds(10, 1, 2000) > 0.95);
  CHECK(share_that_holds(10, 2, 2000) > 0.98);
}

TEST_CASE("tolerance: one-sided robust limits hold as often as they say") {
  Population population;
  const double k = robust_factor(10, {0.90, 0.95}, Sides::one);
  int held = 0;
  for (int run = 0; run < 10'000; ++run) {
    const auto sample = robust_sample(population.sample(10));
    held += below(sample.middle + k * sample.spread) >= 0.90;
  }
  CHECK(std::abs(held / 10'000.0 - 0.95) < 4 * 0.0031);
}

TEST_CASE("tolerance: one wild value in ten moves a robust sample little and a plain one much") {
  Population population;
  double robust = 0, plain = 0, shift = 0;
  constexpr int runs = 2000;
  for (int run = 0; run < runs; ++run) {
    auto values = population.sample(10);
    values[3] = 10;  // ten standard deviations off
    robust += robust_sample(values).spread / runs;
    shift += robust_sample(values).middle / runs;
    plain += plain_sample(values).spread / runs;
  }
  CHECK(robust < 1.7);
  CHECK(std::abs(shift) < 0.25);
  CHECK(plain > 3);
}

TEST_CASE("tolerance: a robust sample costs little where nothing is wild") {
  for (const std::size_t n : {8, 10, 20, 50}) {
    CAPTURE(n);
    const double ratio =
        robust_factor(n, {0.90, 0.95}, Sides::two) / plain_factor(n, {0.90, 0.95}, Sides::two);
    CHECK(ratio > 1);
    CHECK(ratio < 1.03);
  }
}

TEST_CASE("tolerance: samples by hand") {
  // Mean 3, squares 4 + 1 + 0 + 1 + 4 over 4.
  const std::vector<double> even = {1, 2, 3, 4, 5};
  CHECK(plain_sample(even).middle == doctest::Approx(3));
  CHECK(plain_sample(even).spread == doctest::Approx(std::sqrt(2.5)));
  // Qn: the third of the ten distances is 1, so 0.844 * 2.2219 = 1.875; nothing lies beyond 1.5 of
  // it, so that both are those of the plain sample.
  CHECK(robust_sample(even).middle == doctest::Approx(3));
  CHECK(robust_sample(even).spread == doctest::Approx(std::sqrt(2.5)));
  // The fifth counts as 3 * 1.875 from the middle, which itself feels it as 1.5 * 1.875 away: the
  // middle m solves (1-m)+(2-m)+(3-m)+(4-m)+2.813 = 0.
  const std::vector<double> wild = {1, 2, 3, 4, 100};
  const double rough = 0.844 * 2.2219, middle = (10 + 1.5 * rough) / 4;
  CHECK(robust_sample(wild).middle == doctest::Approx(middle));
  double squares = 9 * rough * rough;
  for (const double value : {1, 2, 3, 4}) squares += (value - middle) * (value - middle);
  CHECK(robust_sample(wild).spread == doctest::Approx(std::sqrt(squares / 4)));
  CHECK(robust_sample(std::vector<double>{2, 2, 2, 2, 9}).spread == 0);
}

}  // namespace
}  // namespace rangecheck::grade
