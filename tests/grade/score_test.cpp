// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <random>

#include "close.hpp"
#include "grade/grade.hpp"

using namespace rangecheck::grade;

namespace {

constexpr Band open_above(double lower) { return {lower, std::nullopt}; }
constexpr Band open_below(double upper) { return {std::nullopt, upper}; }

/// The trapezoid as its definition reads, for one known value.
double trapezoid(double x, const Band& band, double fade) {
  double beyond = 0;
  if (band.lower_si && x < *band.lower_si) beyond = *band.lower_si - x;
  if (band.upper_si && x > *band.upper_si) beyond = x - *band.upper_si;
  return std::clamp(1 - beyond / fade, 0.0, 1.0);
}

/// Mean and standard deviation by adding up 200 000 slices over ± 12 u.
Score by_slices(double y, double u, const Band& band, double fade) {
  constexpr int slices = 200'000;
  double mean = 0, square = 0;
  for (int i = 0; i < slices; ++i) {
    const double z = -12 + 24 * (i + 0.5) / slices;
    const double p = std::exp(-0.5 * z * z) / std::sqrt(2 * std::numbers::pi) * 24 / slices;
    const double s = trapezoid(y + u * z, band, fade);
    mean += s * p;
    square += s * s * p;
  }
  return {mean, std::sqrt(std::max(0.0, square - mean * mean))};
}

}  // namespace

TEST_CASE("conformance: the worked examples of JCGM 106:2012") {
  // Inputs from memory, results computed again; published rounded to .92, .99 and .66.
  CHECK_CLOSE(conformance(-5.47, 0.05, open_below(-5.40)).inside, 0.9192, 1e-4);  // 7.3.3 ex. 1
  CHECK_CLOSE(conformance(509.7, 8.6, open_above(490)).inside, 0.9890, 1e-4);     // 7.3.3 ex. 2
  CHECK_CLOSE(conformance(13.6, 1.8, {12.5, 16.3}).inside, 0.6626, 1e-4);         // 7.4
}

TEST_CASE("conformance: z for a wanted probability, JCGM 106:2012, table 1") {
  const std::pair<double, double> rows[] = {
      {0.80, 0.84}, {0.90, 1.28}, {0.95, 1.64}, {0.99, 2.33}, {0.999, 3.09}};
  for (const auto& [probability, z] : rows) {
    // z is printed with two decimals: the probability lies between those of z ± 0.005.
    CHECK(conformance(-(z - 0.005), 1, open_below(0)).inside <= probability);
    CHECK(conformance(-(z + 0.005), 1, open_below(0)).inside >= probability);
  }
}

TEST_CASE("conformance: guard band of ISO 14253-1, limits 33 to 41 with u 1.5") {
  const Band band{33, 41};
  CHECK_CLOSE(conformance(39.5, 1.5, band).inside, 0.8413, 1e-4);
  CHECK_CLOSE(conformance(37, 1.5, band).inside, 0.9923, 1e-4);
  CHECK_CLOSE(conformance(0, 1, open_above(-2)).inside, 0.97725, 1e-5);  // guard band of 2 u
  CHECK(verdict(conformance(39.5, 1.5, band), 0.95) == Verdict::unsure);
  CHECK(verdict(conformance(37, 1.5, band), 0.95) == Verdict::inside);
  // The one-sided 95 % guard band is 1.645 u: acceptance from 35.4675 to 38.5325.
  CHECK(verdict(conformance(38.51, 1.5, open_below(41)), 0.95) == Verdict::inside);
  CHECK(verdict(conformance(38.54, 1.5, open_below(41)), 0.95) == Verdict::unsure);
}

TEST_CASE("conformance: the three probabilities add up to one, also far out") {
  for (const double y : {-1e6, -40.0, -3.0, 0.0, 0.5, 7.0, 1e6}) {
    for (const double u : {0.0, 1e-300, 1e-3, 1.0, 50.0, 1e9}) {
      const auto p = conformance(y, u, {-1, 2});
      CAPTURE(y);
      CAPTURE(u);
      CHECK_CLOSE(p.below + p.inside + p.above, 1, 1e-12);
      CHECK(std::min({p.below, p.inside, p.above}) >= 0);
    }
  }
}

TEST_CASE("verdict: needs the confidence, no more") {
  CHECK(verdict({0.1, 0.8, 0.1}, 0.8) == Verdict::inside);
  CHECK(verdict({0.1001, 0.7999, 0.1}, 0.8) == Verdict::unsure);
  CHECK(verdict({0.8, 0.2, 0}, 0.8) == Verdict::low);
  CHECK(verdict({0, 0.2, 0.8}, 0.8) == Verdict::high);
  CHECK(verdict({0.5, 0.1, 0.4}, 0.8) == Verdict::unsure);
}

TEST_CASE("verdict: with no uncertainty a value on the limit is inside") {
  const Band band{1, 2};
  CHECK(verdict(conformance(1, 0, band), 0.99) == Verdict::inside);
  CHECK(verdict(conformance(2, 0, band), 0.99) == Verdict::inside);
  CHECK(verdict(conformance(std::nextafter(1, 0), 0, band), 0.99) == Verdict::low);
  CHECK(verdict(conformance(std::nextafter(2, 3), 0, band), 0.99) == Verdict::high);
}

TEST_CASE("score: equals the sum over thin slices") {
  const Band bands[] = {{-1, 2}, open_above(-1), open_below(2)};
  for (const Band& band : bands) {
    for (const double y : {-6.0, -2.5, -1.0, 0.0, 1.9, 3.0, 5.5}) {
      for (const double u : {0.05, 0.4, 1.0, 3.0, 20.0}) {
        for (const double fade : {0.3, 1.5, 6.0}) {
          const auto score = trapezoid_score(y, u, band, fade);
          const auto slices = by_slices(y, u, band, fade);
          CAPTURE(y);
          CAPTURE(u);
          CAPTURE(fade);
          CHECK_CLOSE(score.expected, slices.expected, 1e-8);
          // Where the score hardly varies, the root of a rounding error is left.
          CHECK_CLOSE(score.standard_deviation, slices.standard_deviation, 1e-6);
        }
      }
    }
  }
}

TEST_CASE("score: equals the mean and spread over random draws") {
  std::mt19937_64 random(20260101);
  std::normal_distribution<double> draw(13.6, 1.8);
  const Band band{12.5, 16.3};
  constexpr int draws = 200'000;
  double sum = 0, square = 0;
  for (int i = 0; i < draws; ++i) {
    const double s = trapezoid(draw(random), band, 2.5);
    sum += s;
    square += s * s;
  }
  const double mean = sum / draws;
  const auto score = trapezoid_score(13.6, 1.8, band, 2.5);
  // Four standard errors of 200 000 draws.
  CHECK_CLOSE(score.expected, mean, 4 * score.standard_deviation / std::sqrt(draws));
  CHECK_CLOSE(score.standard_deviation, std::sqrt(square / draws - mean * mean), 2e-3);
}

TEST_CASE("score: the definition itself when nothing is uncertain, and nearly so when hardly") {
  const Band band{10, 20};
  for (const double y : {5.0, 7.5, 10.0, 15.0, 20.0, 22.5, 25.0, 40.0}) {
    const double exact = trapezoid(y, band, 5);
    CHECK_CLOSE(trapezoid_score(y, 0, band, 5).expected, exact, 0);
    CHECK_CLOSE(trapezoid_score(y, 0, band, 5).standard_deviation, 0, 0);
    for (const double u : {1e-300, 1e-12, 1e-6}) {
      CHECK_CLOSE(trapezoid_score(y, u, band, 5).expected, exact, 1e-6);
      CHECK(trapezoid_score(y, u, band, 5).standard_deviation <= 1e-6);
    }
  }
}

TEST_CASE("score: knowing nothing of a value earns next to nothing") {
  const auto score = trapezoid_score(15, 1e6, {10, 20}, 5);
  CHECK(score.expected < 1e-4);
  CHECK(score.expected > 0);
}

TEST_CASE("score: falls steadily on both sides of the middle") {
  const Band band{10, 20};
  for (const double u : {0.0, 0.5, 4.0}) {
    for (double y = 15; y < 40; y += 0.25) {
      CHECK(trapezoid_score(y + 0.25, u, band, 5).expected <=
            trapezoid_score(y, u, band, 5).expected + 1e-12);
      CHECK_CLOSE(trapezoid_score(y, u, band, 5).expected,
                  trapezoid_score(30 - y, u, band, 5).expected, 1e-12);
    }
  }
}
