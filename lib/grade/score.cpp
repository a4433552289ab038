// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "grade/grade.hpp"

namespace rangecheck::grade {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// P(Z > z). From erfc, so that far tails keep their relative precision.
double upper_tail(double z) { return 0.5 * std::erfc(z / std::numbers::sqrt2); }

double density(double z) { return std::exp(-0.5 * z * z) / std::sqrt(2 * std::numbers::pi); }

/// ∫ zⁿ φ(z) dz over [from, to] for n = 0, 1, 2.
struct Moments {
  double zeroth, first, second;
};
Moments moments(double from, double to) {
  // In the tail nearer to both ends the difference of two small numbers loses nothing.
  const double mass =
      from > 0 ? upper_tail(from) - upper_tail(to) : upper_tail(-to) - upper_tail(-from);
  const auto z_density = [](double z) { return std::isinf(z) ? 0 : z * density(z); };
  return {mass, density(from) - density(to), mass + z_density(from) - z_density(to)};
}

/// E[s] and E[s²] gathered over pieces on which the score is linear in z = (x − y) / u.
struct Expectation {
  double score = 0, squared = 0;

  /// Adds the piece [from, to] (in z) on which the score is `at_mean` + `slope` · z.
  void add(double from, double to, double at_mean, double slope) {
    const auto m = moments(from, to);
    score += at_mean * m.zeroth + slope * m.first;
    squared +=
        at_mean * at_mean * m.zeroth + 2 * at_mean * slope * m.first + slope * slope * m.second;
  }
};

}  // namespace

Conformance conformance(double y, double u, const Band& band) {
  const double lower = band.lower_si.value_or(-infinity);
  const double upper = band.upper_si.value_or(infinity);
  if (!(u > 0)) {
    return {y < lower ? 1.0 : 0.0, y >= lower && y <= upper ? 1.0 : 0.0, y > upper ? 1.0 : 0.0};
  }
  const double below = upper_tail((y - lower) / u);
  const double above = upper_tail((upper - y) / u);
  return {below, std::clamp(1 - below - above, 0.0, 1.0), above};
}

Verdict verdict(const Conformance& probability, double confidence) {
  if (probability.inside >= confidence) return Verdict::inside;
  if (probability.below >= confidence) return Verdict::low;
  if (probability.above >= confidence) return Verdict::high;
  return Verdict::unsure;
}

Score trapezoid_score(double y, double u, const Band& band, double fade_si) {
  if (!(u > 0)) return {std::max(0.0, 1 - distance_beyond(y, band) / fade_si), 0};
  const auto z = [y, u](double x) { return (x - y) / u; };
  const double slope = u / fade_si;
  Expectation sum;
  if (band.lower_si) {
    const double foot = *band.lower_si - fade_si;
    sum.add(z(foot), z(*band.lower_si), (y - foot) / fade_si, slope);
  }
  if (band.upper_si) {
    const double foot = *band.upper_si + fade_si;
    sum.add(z(*band.upper_si), z(foot), (foot - y) / fade_si, -slope);
  }
  sum.add(band.lower_si ? z(*band.lower_si) : -infinity,
          band.upper_si ? z(*band.upper_si) : infinity, 1, 0);
  const double expected = std::clamp(sum.score, 0.0, 1.0);
  // A score in [0, 1] of mean m has a variance of at most m (1 − m): holds rounding in check.
  const double variance =
      std::clamp(sum.squared - expected * expected, 0.0, expected * (1 - expected));
  return {expected, std::sqrt(variance)};
}

std::string_view name_of(Verdict verdict) {
  switch (verdict) {
    case Verdict::inside:
      return "inside";
    case Verdict::low:
      return "low";
    case Verdict::high:
      return "high";
    case Verdict::outside_words:
      return "outside";
    case Verdict::unsure:
      return "unsure";
    case Verdict::not_seen:
      return "not seen";
    case Verdict::switched_off:
      return "switched off";
  }
  return "";
}

}  // namespace rangecheck::grade
