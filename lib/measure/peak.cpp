// SPDX-License-Identifier: MIT
#include "measure/peak.hpp"

#include <Eigen/QR>
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <random>
#include <vector>

namespace rangecheck::measure {
namespace {

constexpr std::size_t reach = 2;
constexpr std::size_t window = 2 * reach + 1;
constexpr std::size_t least = 7;
/// Draws for the uncertainty: its own spread is then 5 %.
constexpr int draws = 200;
/// Angles taken from landmarks are at least so unsure from frame to frame: 3 mm over the breadth of
/// the hips.
constexpr double least_shake_rad = 0.015;

/// Quadratic through the window about `centre`: value less the middle one, and slope there.
struct Local {
  double residual_rad, speed_rad_s;
};

Local local(std::span<const double> time_s, std::span<const double> angle_rad, std::size_t centre) {
  Eigen::Matrix<double, window, 3> a;
  Eigen::Matrix<double, window, 1> y;
  for (std::size_t i = 0; i < window; ++i) {
    const double t = time_s[centre - reach + i] - time_s[centre];
    a.row(static_cast<int>(i)) << 1, t, t * t;
    y[static_cast<int>(i)] = angle_rad[centre - reach + i];
  }
  const Eigen::Vector3d fit = a.colPivHouseholderQr().solve(y);
  return {y[reach] - fit[0], fit[1]};
}

struct Speeds {
  std::vector<double> time_s, speed_rad_s;
  double residual_rms_rad = 0;
};

Speeds speeds_of(std::span<const double> time_s, std::span<const double> angle_rad) {
  Speeds out;
  double squares = 0;
  for (std::size_t i = reach; i + reach < time_s.size(); ++i) {
    const Local at = local(time_s, angle_rad, i);
    out.time_s.push_back(time_s[i]);
    out.speed_rad_s.push_back(std::abs(at.speed_rad_s));
    squares += at.residual_rad * at.residual_rad;
  }
  out.residual_rms_rad = std::sqrt(squares / static_cast<double>(out.time_s.size()));
  return out;
}

/// Vertex of the parabola through three points; between the outer two.
double vertex(const std::array<double, 3>& t, const std::array<double, 3>& y) {
  const double a = (y[1] - y[0]) / (t[1] - t[0]), b = (y[2] - y[1]) / (t[2] - t[1]);
  if (a - b <= 0) return t[1];
  const double curvature = (b - a) / (t[2] - t[0]);
  return std::clamp((t[0] + t[1]) / 2 - a / (2 * curvature), t[0], t[2]);
}

std::optional<double> peak_s(const Speeds& speeds) {
  const auto top = std::max_element(speeds.speed_rad_s.begin(), speeds.speed_rad_s.end());
  const auto i = static_cast<std::size_t>(top - speeds.speed_rad_s.begin());
  if (i == 0 || i + 1 == speeds.speed_rad_s.size()) return std::nullopt;
  return vertex({speeds.time_s[i - 1], speeds.time_s[i], speeds.time_s[i + 1]},
                {speeds.speed_rad_s[i - 1], speeds.speed_rad_s[i], speeds.speed_rad_s[i + 1]});
}

/// A standard normal by Box and Muller: the same on every machine, which the library's own is not.
double normal(std::mt19937_64& random) {
  const auto uniform = [&random] { return (static_cast<double>(random() >> 11) + 0.5) * 0x1p-53; };
  const double radius = std::sqrt(-2 * std::log(uniform()));
  return radius * std::cos(2 * std::numbers::pi * uniform());
}

}  // namespace

std::optional<Peak> peak_of_speed(std::span<const double> time_s,
                                  std::span<const double> angle_rad) {
  if (time_s.size() < least || time_s.size() != angle_rad.size()) return std::nullopt;
  const Speeds speeds = speeds_of(time_s, angle_rad);
  const auto found = peak_s(speeds);
  if (!found) return std::nullopt;
  // What a quadratic through five leaves of white noise at its middle: 1 − 17/35 of its variance.
  const double shake_rad =
      std::max(least_shake_rad, speeds.residual_rms_rad / std::sqrt(18.0 / 35));
  std::mt19937_64 random(1);
  std::vector<double> shaken(angle_rad.size());
  double squares = 0;
  for (int draw = 0; draw < draws; ++draw) {
    for (std::size_t i = 0; i < shaken.size(); ++i)
      shaken[i] = angle_rad[i] + shake_rad * normal(random);
    // A draw whose peak lies at an end is as far off as the angles reach.
    const auto other = peak_s(speeds_of(time_s, shaken));
    const double off_s = other ? *other - *found : (time_s.back() - time_s.front()) / 2;
    squares += off_s * off_s;
  }
  // Between moments the speed is known no better than to a part of their distance.
  const double grid_s = (time_s.back() - time_s.front()) / static_cast<double>(time_s.size() - 1);
  return Peak{Duration::seconds(*found),
              Duration::seconds(std::hypot(std::sqrt(squares / draws), grid_s / std::sqrt(12.0)))};
}

}  // namespace rangecheck::measure
