// SPDX-License-Identifier: MIT
// Residual formulas of the posture estimate, written once for numbers and for their derivatives.
#pragma once

#include <Eigen/Core>
#include <Eigen/Geometry>
#include <array>
#include <cmath>

namespace rangecheck::posture {

template <class T>
using Vector3 = Eigen::Matrix<T, 3, 1>;

/// Three consecutive unknowns as a point.
template <class T, std::size_t K>
Vector3<T> point_at(const std::array<T, K>& x, std::size_t first) {
  return {x[first], x[first + 1], x[first + 2]};
}

/// `v` turned by the rotation with Gibbs vector g (axis × tan(angle/2)): smooth, and no special
/// case at zero. Rotations here stay far from a half turn.
template <class T>
Vector3<T> turned(const Vector3<T>& g, const Vector3<T>& v) {
  const Vector3<T> c = g.cross(v);
  const T scale = T(2) / (T(1) + g.squaredNorm());
  return v + scale * (c + g.cross(c));
}

/// Seven unknowns of a camera → point in camera axes (right, down, forward), metres.
template <class T, std::size_t K>
Vector3<T> in_camera(const std::array<T, K>& x, std::size_t camera, const Eigen::Matrix3d& nominal,
                     const Vector3<T>& p) {
  const Vector3<T> from_camera = nominal.cast<T>() * (p - point_at(x, camera + 1));
  return turned(point_at(x, camera + 4), from_camera);
}

/// Projected, pixels from the picture's centre.
template <class T>
std::array<T, 2> projected(const T& log_focal, const Vector3<T>& in_camera) {
  using std::exp;
  const T f = exp(log_focal);
  return {f * in_camera[0] / in_camera[2], f * in_camera[1] / in_camera[2]};
}

/// Residuals scaled so that half their sum of squares is the Cauchy loss of scale c: a landmark far
/// from where the rest of the body puts it pulls less and less. c = 2.385 keeps 95 % efficiency.
template <class T, std::size_t M>
std::array<T, M> robust(std::array<T, M> r) {
  using std::log;
  using std::sqrt;
  constexpr double c2 = 2.385 * 2.385;
  T s(1e-12);
  for (const T& each : r) s += each * each;
  const T factor = sqrt(c2 * log(T(1) + s / c2) / s);
  for (T& each : r) each *= factor;
  return r;
}

/// (x − mean) / sigma of one unknown.
struct Near {
  double mean, sigma;
  template <class T>
  std::array<T, 1> operator()(const std::array<T, 1>& x) const {
    return {(x[0] - T(mean)) / T(sigma)};
  }
};

/// A step (m) in fractions of stature, in the golfer's own square when he stands turned open by
/// `turn`: an open line's lead end has the smaller z.
template <class T>
Vector3<T> own_step(const Vector3<T>& step, const T& stature, const T& turn) {
  using std::cos;
  using std::sin;
  const T c = cos(turn), s = sin(turn);
  return Vector3<T>(c * step[0] - s * step[2], step[1], s * step[0] + c * step[2]) / stature;
}

/// Joint (3), stature and turn: the joint near a place given in fractions of stature.
struct NearPlace {
  Eigen::Vector3d mean, sigma;
  template <class T>
  std::array<T, 3> operator()(const std::array<T, 5>& x) const {
    const Vector3<T> own = own_step(point_at(x, 0), x[3], x[4]);
    std::array<T, 3> r;
    for (int i = 0; i < 3; ++i) r[i] = (own[i] - T(mean[i])) / T(sigma[i]);
    return r;
  }
};

/// Joint (3), its parent (3), stature and turn: the step between them near one given in fractions
/// of stature.
struct NearParent {
  NearPlace step;
  template <class T>
  std::array<T, 3> operator()(const std::array<T, 8>& x) const {
    return step(std::array<T, 5>{x[0] - x[3], x[1] - x[4], x[2] - x[5], x[6], x[7]});
  }
};

/// Two joints and stature: their distance over stature.
struct SegmentLength {
  double mean, sigma;
  template <class T>
  std::array<T, 1> operator()(const std::array<T, 7>& x) const {
    const T length = (point_at(x, 0) - point_at(x, 3)).norm();
    return {(length / x[6] - T(mean)) / T(sigma)};
  }
};

/// Ankle, knee, hip and shoulder of the lead, then of the trail side, and stature: mean shank and
/// thigh plus the trunk between mid-hips and mid-shoulders, over stature.
struct AnkleToShoulder {
  double mean, sigma;
  template <class T>
  std::array<T, 1> operator()(const std::array<T, 25>& x) const {
    const auto leg = [&](std::size_t first) {
      const Vector3<T> ankle = point_at(x, first), knee = point_at(x, first + 3),
                       hip = point_at(x, first + 6);
      return (ankle - knee).norm() + (knee - hip).norm();
    };
    const Vector3<T> hips = (point_at(x, 6) + point_at(x, 18)) / T(2);
    const Vector3<T> shoulders = (point_at(x, 9) + point_at(x, 21)) / T(2);
    const T length = (leg(0) + leg(12)) / T(2) + (shoulders - hips).norm();
    return {(length / x[24] - T(mean)) / T(sigma)};
  }
};

/// Two joints: their distance, metres.
struct Distance {
  double mean_m, sigma_m;
  template <class T>
  std::array<T, 1> operator()(const std::array<T, 6>& x) const {
    return {((point_at(x, 0) - point_at(x, 3)).norm() - T(mean_m)) / T(sigma_m)};
  }
};

/// Two segments of two joints each: equally long.
struct EqualLength {
  double sigma_m;
  template <class T>
  std::array<T, 1> operator()(const std::array<T, 12>& x) const {
    return {((point_at(x, 0) - point_at(x, 3)).norm() - (point_at(x, 6) - point_at(x, 9)).norm()) /
            T(sigma_m)};
  }
};

/// Heel, toe, ankle and stature: the ankle over the foot's axis, `along` the way from heel to toe.
struct AnkleOnFoot {
  double along, along_sigma, beside_sigma_m, height, height_sigma;
  template <class T>
  std::array<T, 3> operator()(const std::array<T, 10>& x) const {
    using std::sqrt;
    const T fx = x[3] - x[0], fz = x[5] - x[2];
    const T ax = x[6] - x[0], az = x[8] - x[2];
    const T length2 = fx * fx + fz * fz + T(1e-9);
    return {((fx * ax + fz * az) / length2 - T(along)) / T(along_sigma),
            (fx * az - fz * ax) / sqrt(length2) / T(beside_sigma_m),
            (x[7] / x[9] - T(height)) / T(height_sigma)};
  }
};

/// Heel, big toe and small toe of one foot: the small toe `along` the axis and `outward` of it,
/// both in lengths of the axis. `out` is +1 for the lead foot (outward is +X), −1 for the trail
/// foot.
struct SmallToeOnFoot {
  double along, along_sigma, outward, outward_sigma, out;
  template <class T>
  std::array<T, 2> operator()(const std::array<T, 9>& x) const {
    const T fx = x[3] - x[0], fz = x[5] - x[2];
    const T sx = x[6] - x[0], sz = x[8] - x[2];
    const T length2 = fx * fx + fz * fz + T(1e-9);
    return {((fx * sx + fz * sz) / length2 - T(along)) / T(along_sigma),
            (T(out) * (fz * sx - fx * sz) / length2 - T(outward)) / T(outward_sigma)};
  }
};

/// Three joints a–b–c: b may not lie on the wrong side of the line a–c along Z. `sign` +1: b must
/// lie in front (knee), −1: behind (elbow). Free on the right side, linear on the wrong one.
struct BendsOneWay {
  double sign, sigma_m;
  template <class T>
  std::array<T, 1> operator()(const std::array<T, 9>& x) const {
    const Vector3<T> a = point_at(x, 0), b = point_at(x, 3), c = point_at(x, 6);
    const Vector3<T> line = c - a;
    const T share = (b - a).dot(line) / (line.squaredNorm() + T(1e-9));
    const T ahead = (b - a - share * line)[2] * T(sign);
    if (ahead > T(0)) return {T(0)};
    return {ahead / T(sigma_m)};
  }
};

/// Both heels: their mid-point above the origin. It defines the frame, so it is held hard.
struct HeelsAtOrigin {
  template <class T>
  std::array<T, 2> operator()(const std::array<T, 6>& x) const {
    constexpr double sigma_m = 1e-3;
    return {(x[0] + x[3]) / T(2 * sigma_m), (x[2] + x[5]) / T(2 * sigma_m)};
  }
};

/// Camera: log focal, position, turn → squareness, height, log distance, aim and roll.
struct CameraPlaced {
  Eigen::Matrix3d nominal;
  Eigen::Vector3d look_at;
  double bearing_sigma, height_mean, height_sigma, log_distance_mean, log_distance_sigma, aim_sigma,
      roll_sigma;
  template <class T>
  std::array<T, 6> operator()(const std::array<T, 7>& x) const {
    using std::atan2;
    using std::log;
    const Vector3<T> to_golfer = nominal.cast<T>() * (look_at.cast<T>() - point_at(x, 1));
    const T distance2 = to_golfer[0] * to_golfer[0] + to_golfer[2] * to_golfer[2];
    const T bearing = atan2(to_golfer[0], to_golfer[2]);
    // Phones on stands are level and square; one against a bag may be far from it.
    return {robust(std::array<T, 1>{bearing / T(bearing_sigma)})[0],
            (x[2] - T(height_mean)) / T(height_sigma),
            (log(distance2) / T(2) - T(log_distance_mean)) / T(log_distance_sigma),
            T(2) * x[4] / T(aim_sigma),
            T(2) * x[5] / T(aim_sigma),
            robust(std::array<T, 1>{T(2) * x[6] / T(roll_sigma)})[0]};
  }
};

/// Camera: log of its distance from the golfer along the ground, as stated.
struct CameraDistance {
  Eigen::Vector3d look_at;
  double log_mean, log_sigma;
  template <class T>
  std::array<T, 1> operator()(const std::array<T, 7>& x) const {
    using std::log;
    const T dx = x[1] - T(look_at[0]), dz = x[3] - T(look_at[2]);
    return {(log(dx * dx + dz * dz) / T(2) - T(log_mean)) / T(log_sigma)};
  }
};

/// A joint (3) seen by a camera (7), pixels from the picture's centre, bias taken out.
struct Seen {
  static constexpr int size = 2;
  Eigen::Matrix3d nominal;
  Eigen::Vector2d at_px, sigma_px;
  const Eigen::Vector2d& sigma() const { return sigma_px; }
  template <class T>
  std::array<T, 2> plain(const std::array<T, 10>& x) const {
    const auto p = projected(x[3], in_camera(x, 3, nominal, point_at(x, 0)));
    return {(p[0] - T(at_px[0])) / T(sigma_px[0]), (p[1] - T(at_px[1])) / T(sigma_px[1])};
  }
  template <class T>
  std::array<T, 2> operator()(const std::array<T, 10>& x) const {
    return robust(plain(x));
  }
};

/// A joint (3) drawn toward its twin (3) along Z by `times` a share (the last unknown), as `Sight`
/// has it: through a camera or a frame in space (7).
template <class Sight>
struct Pulled {
  Sight seen;
  double times;
  template <class T>
  std::array<T, Sight::size> operator()(const std::array<T, 14>& x) const {
    std::array<T, 10> shown;
    for (int i = 0; i < 3; ++i) shown[i] = x[i];
    shown[2] += T(times) * x[13] * (x[5] - x[2]);
    for (int i = 0; i < 7; ++i) shown[3 + i] = x[6 + i];
    return seen(shown);
  }
};

/// A moving joint (3) as `Sight` has it (7) at a moment that may be off by a delay (1), during
/// which what is seen of the joint runs on. `velocity`: of that, a second.
template <class Sight>
struct InMotion {
  Sight seen;
  Eigen::Matrix<double, Sight::size, 1> velocity;
  template <class T>
  std::array<T, Sight::size> plain(const std::array<T, 11>& x) const {
    std::array<T, 10> still;
    for (int i = 0; i < 10; ++i) still[i] = x[i];
    auto r = seen.plain(still);
    for (int i = 0; i < Sight::size; ++i) r[i] -= T(velocity[i] / seen.sigma()[i]) * x[10];
    return r;
  }
  template <class T>
  std::array<T, Sight::size> operator()(const std::array<T, 11>& x) const {
    return robust(plain(x));
  }
};

/// The same with the joint at address (3, last): what was wrong there is wrong again, `again` times
/// (in spreads of now and then).
template <class Sight>
struct InMotionAgain {
  InMotion<Sight> now;
  Sight then;
  Eigen::Matrix<double, Sight::size, 1> again;
  template <class T>
  std::array<T, Sight::size> operator()(const std::array<T, 14>& x) const {
    std::array<T, 11> at_now;
    for (int i = 0; i < 11; ++i) at_now[i] = x[i];
    std::array<T, 10> at_address;
    for (int i = 0; i < 3; ++i) at_address[i] = x[11 + i];
    for (int i = 0; i < 7; ++i) at_address[3 + i] = x[3 + i];
    auto r = now.plain(at_now);
    const auto first = then.plain(at_address);
    for (int i = 0; i < Sight::size; ++i) r[i] -= T(again[i]) * first[i];
    return robust(r);
  }
};

/// A joint (3) against another (3): their step near one given, metres.
struct StepNear {
  Eigen::Vector3d mean_m, sigma_m;
  template <class T>
  std::array<T, 3> operator()(const std::array<T, 6>& x) const {
    std::array<T, 3> r;
    for (int i = 0; i < 3; ++i) r[i] = (x[i] - x[3 + i] - T(mean_m[i])) / T(sigma_m[i]);
    return r;
  }
};

/// Lead and trail end of a line: seen from above it is open by about so much.
struct LineOpen {
  double mean_rad, sigma_rad;
  template <class T>
  std::array<T, 1> operator()(const std::array<T, 6>& x) const {
    using std::atan2;
    const T along = x[0] - x[3], away = x[5] - x[2];
    const double c = std::cos(mean_rad), s = std::sin(mean_rad);
    // Turned back by the mean first, so that no half turn is near.
    return {atan2(T(c) * away - T(s) * along, T(c) * along + T(s) * away) / T(sigma_rad)};
  }
};

/// Shoulder, elbow and wrist: the straight distance over the length of the arm.
struct LongArm {
  double mean, sigma;
  template <class T>
  std::array<T, 1> operator()(const std::array<T, 9>& x) const {
    const Vector3<T> shoulder = point_at(x, 0), elbow = point_at(x, 3), wrist = point_at(x, 6);
    const T arm = (shoulder - elbow).norm() + (elbow - wrist).norm();
    return {((shoulder - wrist).norm() / arm - T(mean)) / T(sigma)};
  }
};

/// Hips and shoulders (lead, trail each; 12) now and at address (12): the middles as far apart.
struct TrunkKept {
  double sigma_m;
  template <class T>
  std::array<T, 1> operator()(const std::array<T, 24>& x) const {
    const auto length = [&](std::size_t first) -> T {
      return ((point_at(x, first) + point_at(x, first + 3)) / T(2) -
              (point_at(x, first + 6) + point_at(x, first + 9)) / T(2))
          .norm();
    };
    return {(length(0) - length(12)) / T(sigma_m)};
  }
};

/// Stick (x of both ends, z of both) and camera (7): its two ends on the ground as clicked.
struct StickSeen {
  Eigen::Matrix3d nominal;
  Eigen::Vector2d first_px, second_px;
  double sigma_px;
  template <class T>
  std::array<T, 4> operator()(const std::array<T, 11>& x) const {
    const auto a = projected(x[4], in_camera(x, 4, nominal, Vector3<T>(x[0], T(0), x[2])));
    const auto b = projected(x[4], in_camera(x, 4, nominal, Vector3<T>(x[1], T(0), x[3])));
    return {(a[0] - T(first_px[0])) / T(sigma_px), (a[1] - T(first_px[1])) / T(sigma_px),
            (b[0] - T(second_px[0])) / T(sigma_px), (b[1] - T(second_px[1])) / T(sigma_px)};
  }
};

/// Stick: along X, as well as a stick is laid down by eye.
struct StickAlongTarget {
  double sigma_rad;
  template <class T>
  std::array<T, 1> operator()(const std::array<T, 4>& x) const {
    using std::atan2;
    return {atan2(x[3] - x[2], x[1] - x[0]) / T(sigma_rad)};
  }
};

}  // namespace rangecheck::posture
