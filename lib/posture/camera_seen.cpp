// SPDX-License-Identifier: MIT
#include "posture/camera_seen.hpp"

#include <cmath>

#include "ceres/jet.h"
#include "posture/formulas.hpp"

namespace rangecheck::posture {
namespace {

/// How high and how far off people put cameras spreads wider than a normal prior has it, and a film
/// tells so little of both that the estimate leans on it: by this factor on made-up golfers.
constexpr double place_widening = 1.3;

/// Seven unknowns of a camera to height, distance, off square, pitch and roll.
struct CameraStands {
  Eigen::Matrix3d nominal;
  template <class T>
  Eigen::Matrix<T, 5, 1> operator()(const std::array<T, 7>& x) const {
    using std::asin;
    using std::atan2;
    using std::sqrt;
    const Vector3<T> to_golfer = nominal.cast<T>() * (look_at.cast<T>() - point_at(x, 1));
    // Up, in the camera's axes: right, down, forward.
    const Vector3<T> up =
        turned(point_at(x, 4), Vector3<T>(nominal.cast<T>() * Vector3<T>(T(0), T(1), T(0))));
    return {x[2], sqrt(to_golfer[0] * to_golfer[0] + to_golfer[2] * to_golfer[2]),
            atan2(to_golfer[0], to_golfer[2]), -asin(up[2]), atan2(up[0], -up[1])};
  }
};

}  // namespace

CameraSeen camera_seen(const Moment& moment, std::size_t number, const Eigen::VectorXd& state,
                       const Eigen::MatrixXd& covariance) {
  using Jet = ceres::Jet<double, Unknowns::per_camera>;
  const int camera = *moment.view(number).camera;
  const intake::View view = moment.evidence().views[number].view;
  std::array<Jet, Unknowns::per_camera> unknowns;
  for (int i = 0; i < Unknowns::per_camera; ++i) unknowns[i] = Jet(state[camera + i], i);
  const auto stands = CameraStands{nominal_axes(view)}(unknowns);
  const Eigen::MatrixXd own =
      covariance.block(camera, camera, Unknowns::per_camera, Unknowns::per_camera);
  const auto told = [&](int i, double widening = 1) {
    const auto& slope = stands[i].v;
    return Uncertain{stands[i].a, widening * std::sqrt(std::max(0.0, slope.dot(own * slope)))};
  };
  return {view, told(0, place_widening), told(1, place_widening), told(2), told(3), told(4)};
}

}  // namespace rangecheck::posture
