// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/Core>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <random>

namespace rangecheck::samples {

/// Random numbers that are the same with every standard library: the engine is fixed by the
/// standard, the distributions of <random> are not, so they are made here.
class Random {
 public:
  explicit Random(std::uint64_t seed) : engine_(mixed(seed)) {}

  /// A stream of its own for one part, so that drawing more in one part leaves the others alone.
  static Random for_part(std::uint64_t seed, std::uint64_t part) {
    return Random(mixed(seed) ^ mixed(part + 1));
  }

  /// In [low, high).
  double uniform(double low, double high) {
    const double unit = static_cast<double>(engine_() >> 11) * 0x1p-53;
    return low + (high - low) * unit;
  }

  /// Normal, by the transform of Box and Muller (one value a pair of draws: no hidden state).
  double normal(double mean, double sd) {
    const double radius = std::sqrt(-2 * std::log(1 - uniform(0, 1)));
    return mean + sd * radius * std::cos(2 * std::numbers::pi * uniform(0, 1));
  }

  /// Two independent ones about 0. (Two calls as arguments of one call have no fixed order.)
  Eigen::Vector2d normal_2d(double sd) {
    const double first = normal(0, sd);
    return {first, normal(0, sd)};
  }

  bool chance(double probability) { return uniform(0, 1) < probability; }

 private:
  /// SplitMix64 (Steele, Lea & Flood 2014): neighbouring seeds give unrelated streams.
  static constexpr std::uint64_t mixed(std::uint64_t value) {
    value += 0x9e3779b97f4a7c15;
    value = (value ^ (value >> 30)) * 0xbf58476d1ce4e5b9;
    value = (value ^ (value >> 27)) * 0x94d049bb133111eb;
    return value ^ (value >> 31);
  }

  std::mt19937_64 engine_;
};

}  // namespace rangecheck::samples
