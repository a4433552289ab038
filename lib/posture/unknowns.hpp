// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/Core>
#include <array>
#include <optional>
#include <vector>

#include "base/skeleton.hpp"
#include "intake/submission.hpp"
#include "posture/posture.hpp"

namespace rangecheck::posture {

/// Where each unknown sits in the state vector of one still moment:
///   [ stature (m), turn (rad) | 3 per joint (m, golfer frame) | 7 per camera | 7 per own-3D source
///   | 4 per stick |
///     1 per film whose shoulders are pulled together ]
class Unknowns {
 public:
  static constexpr int per_camera = 7;   ///< log focal (px), position (3, m), turn (3)
  static constexpr int per_spatial = 7;  ///< turn (3), log scale, shift (3, m)
  static constexpr int per_stick = 4;    ///< x of both ends, z of both (m); on the ground

  explicit Unknowns(std::vector<LandmarkId> joints) : joints_(std::move(joints)) {
    for (std::size_t i = 0; i < joints_.size(); ++i) {
      place_[joints_[i]] = first_joint + 3 * static_cast<int>(i);
    }
    size_ = first_joint + 3 * static_cast<int>(joints_.size());
  }

  int stature() const { return 0; }
  /// How far the golfer as a whole stands turned open from the target line.
  int turn() const { return 1; }
  static constexpr int first_joint = 2;
  /// Count of the joints' own unknowns.
  int joint_count() const { return 3 * static_cast<int>(joints_.size()); }
  bool has(LandmarkId id) const { return place_.has(id); }
  /// First of the joint's three; the joint must be there.
  int joint(LandmarkId id) const { return *place_[id]; }
  const std::vector<LandmarkId>& joints() const { return joints_; }
  int size() const { return size_; }

  int add_camera() { return add(per_camera); }
  int add_spatial() { return add(per_spatial); }
  int add_stick() { return add(per_stick); }
  int add_pull() { return add(1); }

 private:
  int add(int count) {
    const int first = size_;
    size_ += count;
    return first;
  }
  std::vector<LandmarkId> joints_;
  LandmarkMap<int> place_;
  int size_ = 0;
};

/// The indices of several runs of unknowns, one after another.
template <std::size_t... Lengths>
constexpr auto runs(const std::array<int, sizeof...(Lengths)>& firsts) {
  constexpr std::array<std::size_t, sizeof...(Lengths)> lengths{Lengths...};
  std::array<int, (Lengths + ...)> out{};
  std::size_t at = 0;
  for (std::size_t run = 0; run < lengths.size(); ++run) {
    for (std::size_t i = 0; i < lengths[run]; ++i) out[at++] = firsts[run] + static_cast<int>(i);
  }
  return out;
}

/// Axes of a camera that is exactly where its view's name says: rows image right, down, forward.
Eigen::Matrix3d nominal_axes(intake::View view);
/// The point that cameras stand around: above the ground between feet and ball, metres.
inline const Point look_at{0.0, 0.85, 0.20};

}  // namespace rangecheck::posture
