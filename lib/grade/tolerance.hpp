// SPDX-License-Identifier: MIT
// Statistical tolerance intervals of a normal population: limits that hold at least a given share
// of it with a given confidence, from a sample (ISO 16269-6:2014). Pure numbers, any unit.
#pragma once

#include <cstddef>
#include <map>
#include <span>
#include <utility>

namespace rangecheck::grade {

/// Whether the limits are on both sides, or on one.
enum class Sides { two, one };

/// What an interval has to hold.
struct Holding {
  double cover = 0.90;       ///< share of the population
  double confidence = 0.95;  ///< with which it is held
};

/// Where a sample lies and how wide: estimates of a normal population's mean and standard
/// deviation.
struct Sample {
  double middle = 0, spread = 0;
};

/// Mean and standard deviation (divisor n − 1) of two values or more.
Sample plain_sample(std::span<const double> values);

/// The same of a sample with some wild values: Huber's M-estimate of location (Huber, Ann. Math.
/// Stat. 35, 1964, 73-101; c = 1.5), and the standard deviation about it in which no value counts
/// as farther away than 3 of the rough scale Qn (Rousseeuw & Croux, J. Am. Stat. Assoc. 88, 1993,
/// 1273-1283), which half of the values may be wild for. Hardly less efficient than mean and
/// standard deviation where nothing is wild. The spread is 0 where a quarter of all pairs are
/// alike.
Sample robust_sample(std::span<const double> values);

/// k of mean ± k s (two sides), or of the limit mean + k s, for n ≥ 2 values from a normal
/// population of unknown mean and standard deviation: the exact factor that ISO 16269-6 tabulates,
/// by numerical integration, within 1e-4.
double plain_factor(std::size_t n, Holding holding, Sides sides);

/// k of middle ± k spread for robust_sample, n ≥ 5. No table has it: it is the quantile over
/// made-up normal samples, always the same ones, so that the same sample gives the same band. With
/// 10 000 of them (fewer for n > 60) the confidence is met within 0.2 % (standard error; 0.5 % for
/// n > 130).
double robust_factor(std::size_t n, Holding holding, Sides sides);

/// The factors of one way of holding, each found once: a profile asks for few different n.
class Factors {
 public:
  explicit Factors(Holding holding = {}) : holding_(holding) {}
  double plain(std::size_t n, Sides sides);
  double robust(std::size_t n, Sides sides);

 private:
  using Known = std::map<std::pair<std::size_t, Sides>, double>;
  Holding holding_;
  Known plain_, robust_;
};

}  // namespace rangecheck::grade
