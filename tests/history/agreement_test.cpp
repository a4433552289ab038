// SPDX-License-Identifier: MIT
// The statistics of agreement against worked examples of their authors, and by a second route.
#include "history/agreement.hpp"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <cmath>
#include <random>
#include <sstream>
#include <vector>

#include "second_route.hpp"

namespace rangecheck::history {
namespace {

/// Six targets, four judges: Shrout & Fleiss, Psychol Bull 86 (1979) 420-428, table 2.
constexpr double shrout_fleiss[] = {9, 2, 5, 8, 6,  1, 3, 2, 8, 4, 6, 8,
                                    7, 1, 2, 6, 10, 5, 6, 9, 6, 2, 4, 7};

/// Peak expiratory flow in l/min of 17 people, first readings with the large and the mini meter:
/// Bland & Altman, Lancet 327 (1986) 307-310, table I. Differences are large minus mini there.
constexpr Pair peak_flow[] = {{512, 494}, {430, 395}, {520, 516}, {428, 434}, {500, 476},
                              {600, 557}, {364, 413}, {380, 442}, {658, 650}, {445, 433},
                              {432, 417}, {626, 656}, {260, 267}, {477, 478}, {259, 178},
                              {350, 423}, {451, 427}};

std::vector<Pair> drawn_pairs(std::size_t count, double bias, double noise, unsigned seed) {
  std::mt19937_64 random(seed);
  std::normal_distribution<double> normal;
  std::vector<Pair> pairs;
  for (std::size_t i = 0; i < count; ++i) {
    const double truth = 30 + 6 * normal(random);
    const double first = truth + noise * normal(random);
    pairs.push_back({first, truth + bias + noise * normal(random)});
  }
  return pairs;
}

TEST_CASE("agreement: mean squares and ICC(2,1) of Shrout and Fleiss's worked table") {
  const MeanSquares squares = mean_squares_of(shrout_fleiss, 4);
  CHECK(squares.targets == 6);
  // Table 3 there, two decimals.
  CHECK_CLOSE(squares.between_targets, 11.24, 0.005);
  CHECK_CLOSE(squares.between_judges, 32.49, 0.005);
  CHECK_CLOSE(squares.error, 1.02, 0.005);
  CHECK_CLOSE(squares.within_targets, 6.26, 0.005);
  const auto icc = icc_2_1(squares);
  REQUIRE(icc);
  CHECK_CLOSE(icc->value, 0.29, 0.005);  // table 4 there
  REQUIRE(icc->interval_95);
  // The interval that the R package psych prints for this table (from memory), three decimals.
  CHECK_CLOSE(icc->interval_95->low, 0.019, 0.0005);
  CHECK_CLOSE(icc->interval_95->high, 0.761, 0.0005);
  CHECK_CLOSE(standard_error_of_measurement(squares), std::sqrt(1.02), 0.005);
}

TEST_CASE("agreement: bias and limits of Bland and Altman's peak flow") {
  const auto found = differences_of(peak_flow);
  REQUIRE(found);
  CHECK(found->pairs == 17);
  CHECK_CLOSE(found->bias, -2.1, 0.05);
  CHECK_CLOSE(found->sd, 38.8, 0.05);
  CHECK_CLOSE(found->bias_95.low, -22.0, 0.1);
  CHECK_CLOSE(found->bias_95.high, 17.8, 0.1);
  // The paper takes 2 sd, we take 1.96: -79.7 and 75.5 there.
  CHECK_CLOSE(found->limits.low, -79.7 + 0.04 * 38.8, 0.1);
  CHECK_CLOSE(found->limits.high, 75.5 - 0.04 * 38.8, 0.1);
  // Its approximate intervals, -114.3 to -45.1 and 40.9 to 110.1, are as wide on both sides. The
  // exact ones of 17 differences reach less far in and farther out, by less than 20 l/min.
  CHECK(found->lower_limit_95.low < -114.3);
  CHECK(found->lower_limit_95.low > -134.3);
  CHECK(found->lower_limit_95.high < -45.1);
  CHECK(found->lower_limit_95.high > -65.1);
  CHECK_CLOSE(found->upper_limit_95.high - found->bias, found->bias - found->lower_limit_95.low,
              1e-9);
}

TEST_CASE("agreement: many pairs have the limits' intervals of Bland and Altman's formula") {
  const auto pairs = drawn_pairs(4000, 1, 2, 1);
  const auto found = differences_of(pairs);
  REQUIRE(found);
  // sd sqrt(1/n + 1.96^2 / 2(n - 1)): Bland & Altman, Stat Methods Med Res 8 (1999) 135-160.
  const double half = 1.96 * found->sd * std::sqrt(1 / 4000.0 + 1.96 * 1.96 / (2 * 3999.0));
  CHECK_CLOSE(found->limits.high - found->upper_limit_95.low, half, 0.03 * half);
  CHECK_CLOSE(found->upper_limit_95.high - found->limits.high, half, 0.03 * half);
}

TEST_CASE("agreement: a second route finds the same") {
  std::vector<std::vector<Pair>> all = {{std::begin(peak_flow), std::end(peak_flow)},
                                        {{1, 2}, {2, 2.5}, {4, 6}},
                                        drawn_pairs(5, 0, 5, 2),
                                        drawn_pairs(12, 3, 1, 3),
                                        drawn_pairs(60, -4, 8, 4)};
  std::string lines;
  for (const auto& pairs : all) {
    for (const auto& [first, second] : pairs) lines += fmt::format("{} {} ", first, second);
    lines += "\n";
  }
  const auto other = test::by_another_library("history/agreement.py", lines);
  if (!other) return;
  std::istringstream numbers(*other);
  for (const auto& pairs : all) {
    const auto differences = differences_of(pairs);
    const auto icc = icc_2_1(mean_squares_of(pairs));
    const auto trend = trend_of(pairs);
    REQUIRE((differences && icc && icc->interval_95 && trend));
    const double ours[] = {differences->bias,
                           differences->bias_95.low,
                           differences->bias_95.high,
                           differences->sd,
                           differences->lower_limit_95.low,
                           differences->lower_limit_95.high,
                           differences->upper_limit_95.low,
                           differences->upper_limit_95.high,
                           icc->value,
                           icc->interval_95->low,
                           icc->interval_95->high,
                           trend->slope,
                           trend->p};
    for (const double value : ours) {
      double expected = 0;
      REQUIRE((numbers >> expected));
      CHECK_CLOSE(value, expected, 2e-6 * (1 + std::abs(expected)));
    }
  }
}

TEST_CASE("agreement: the detectable change of two readings is half the width of their limits") {
  const auto pairs = drawn_pairs(20, 2, 3, 5);
  const auto found = differences_of(pairs);
  const double sem = standard_error_of_measurement(mean_squares_of(pairs));
  REQUIRE(found);
  CHECK_CLOSE(least_detectable(sem), (found->limits.high - found->limits.low) / 2, 1e-9);
  CHECK_CLOSE(sem, found->sd / std::sqrt(2.0), 1e-9);
}

TEST_CASE("agreement: a shift lowers ICC(2,1) and not the detectable change") {
  const auto together = drawn_pairs(30, 0, 1, 6), apart = drawn_pairs(30, 8, 1, 6);
  const auto squares = mean_squares_of(together), shifted = mean_squares_of(apart);
  CHECK(icc_2_1(squares)->value > 0.9);
  CHECK(icc_2_1(shifted)->value < 0.7);
  CHECK_CLOSE(standard_error_of_measurement(squares), standard_error_of_measurement(shifted), 1e-9);
}

TEST_CASE("agreement: a second reader who stretches the scale shows as a trend") {
  std::vector<Pair> pairs = drawn_pairs(40, 0, 1, 7);
  CHECK(trend_of(pairs)->p > 0.05);
  for (auto& pair : pairs) pair.second *= 1.3;
  const auto trend = trend_of(pairs);
  CHECK(trend->p < 0.001);
  // Differences of x and 1.3 x are 0.3 x, their mean is 1.15 x.
  CHECK_CLOSE(trend->slope, 0.3 / 1.15, 0.08);
}

TEST_CASE("agreement: too few pairs, and readings that are all the same") {
  const Pair two[] = {{1, 2}, {3, 4}};
  CHECK_FALSE(differences_of(two));
  CHECK_FALSE(trend_of(two));
  const Pair same[] = {{0.1, 0.1}, {0.1, 0.1}, {0.1, 0.1}};
  CHECK(differences_of(same)->sd == 0);
  CHECK_FALSE(trend_of(same));
  CHECK_FALSE(icc_2_1(mean_squares_of(same)));
  const Pair twins[] = {{1, 1}, {2, 2}, {5, 5}};
  CHECK_CLOSE(icc_2_1(mean_squares_of(twins))->value, 1, 1e-12);
  const Pair shifted[] = {{1, 2}, {2, 3}, {5, 6}};
  CHECK(icc_2_1(mean_squares_of(shifted))->value < 1);
  CHECK(trend_of(shifted) == std::nullopt);
}

TEST_CASE("agreement: kappa of worked examples") {
  // Cohen, Educ Psychol Meas 20 (1960) 37-46, table 1, as counts of 200: 0.492 (from memory; the
  // same table of 200 cases is that of Psychol Bull 70 (1968) 213-220).
  constexpr std::size_t diagnoses[] = {88, 10, 2, 14, 40, 6, 18, 10, 12};
  CHECK_CLOSE(cohen_kappa(diagnoses, 3)->value, 0.492, 0.0005);
  // The example of ci.kappa in the R package statpsych 1.7 (Bonett), all its digits.
  constexpr std::size_t two_words[] = {31, 12, 4, 58};
  const auto kappa = cohen_kappa(two_words, 2);
  CHECK_CLOSE(kappa->value, 0.6756757, 5e-8);
  CHECK_CLOSE(kappa->standard_error, 0.07344761, 5e-9);
  constexpr std::size_t one_word[] = {7, 0, 0, 0};
  CHECK_FALSE(cohen_kappa(one_word, 2));
  constexpr std::size_t none[] = {0, 0, 0, 0};
  CHECK_FALSE(cohen_kappa(none, 2));
}

}  // namespace
}  // namespace rangecheck::history
