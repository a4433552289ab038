// SPDX-License-Identifier: MIT
// Residual formulas of points in space, written once for numbers and for their derivatives.
#pragma once

#include "posture/formulas.hpp"

namespace rangecheck::posture {

/// A joint (3) as an estimator places it in space, up to turn, scale and shift (7); bias taken out.
struct SeenInSpace {
  static constexpr int size = 3;
  Eigen::Matrix3d nominal;
  Eigen::Vector3d at_m, sigma_m;
  const Eigen::Vector3d& sigma() const { return sigma_m; }
  template <class T>
  std::array<T, 3> plain(const std::array<T, 10>& x) const {
    using std::exp;
    const Vector3<T> rotated =
        turned(point_at(x, 3), Vector3<T>(nominal.cast<T>() * point_at(x, 0)));
    const Vector3<T> placed = exp(x[6]) * rotated + point_at(x, 7);
    std::array<T, 3> r;
    for (int i = 0; i < 3; ++i) r[i] = (placed[i] - T(at_m[i])) / T(sigma_m[i]);
    return r;
  }
  template <class T>
  std::array<T, 3> operator()(const std::array<T, 10>& x) const {
    return robust(plain(x));
  }
};

/// Places along Z of joints (16; the pairs of prior::masses): the centre of mass so
/// far from the middle of the heels toward the toes.
struct Balanced {
  std::array<double, 8> mass;
  double ahead, sigma_m;
  template <class T>
  std::array<T, 1> operator()(const std::array<T, 16>& x) const {
    std::array<T, 8> middle;
    T centre(0);
    for (std::size_t i = 0; i < 8; ++i) {
      middle[i] = (x[2 * i] + x[2 * i + 1]) / T(2);
      centre += T(mass[i]) * middle[i];
    }
    // Heels and toes come last.
    const T& heels = middle[6];
    const T& toes = middle[7];
    return {(centre - heels - T(ahead) * (toes - heels)) / T(sigma_m)};
  }
};

/// Turn and log scale of a frame of points in space (4): how gravity and the view's line lie in it
/// (tilt about right, bearing about down, roll about away, radians), and its scale.
struct FramePlaced {
  Eigen::Vector3d mean_rad, sigma_rad;
  double scale_mean, scale_sigma;
  template <class T>
  std::array<T, 4> operator()(const std::array<T, 4>& x) const {
    using std::atan2;
    const Vector3<T> g = point_at(x, 0);
    const Vector3<T> down = turned(g, Vector3<T>(T(0), T(1), T(0)));
    const Vector3<T> right = turned(g, Vector3<T>(T(1), T(0), T(0)));
    const T bearing = (atan2(-right[2], right[0]) - T(mean_rad[1])) / T(sigma_rad[1]);
    return {(atan2(down[2], down[1]) - T(mean_rad[0])) / T(sigma_rad[0]),
            // As for cameras that take pictures.
            robust(std::array<T, 1>{bearing})[0],
            (atan2(-down[0], down[1]) - T(mean_rad[2])) / T(sigma_rad[2]),
            (x[3] - T(scale_mean)) / T(scale_sigma)};
  }
};

}  // namespace rangecheck::posture
