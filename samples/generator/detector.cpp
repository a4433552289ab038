// SPDX-License-Identifier: MIT
#include "generator/detector.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "generator/detector_parts.hpp"
#include "generator/offsets_33.hpp"

namespace rangecheck::samples {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;

// In an order that makes each skeleton a stretch of one list.
constexpr std::array body_points = {
    // only in `all`
    centre(Joint::head_top),
    // points_25
    centre(Joint::neck), lead(Joint::small_toe), trail(Joint::small_toe),
    // points_25 and coco_17 share these with points_33
    centre(Joint::nose), lead(Joint::eye), trail(Joint::eye), lead(Joint::ear), trail(Joint::ear),
    lead(Joint::shoulder), trail(Joint::shoulder), lead(Joint::elbow), trail(Joint::elbow),
    lead(Joint::wrist), trail(Joint::wrist), lead(Joint::hip), trail(Joint::hip), lead(Joint::knee),
    trail(Joint::knee), lead(Joint::ankle), trail(Joint::ankle), lead(Joint::heel),
    trail(Joint::heel), lead(Joint::big_toe), trail(Joint::big_toe),
    // points_33
    lead(Joint::index_1), trail(Joint::index_1), lead(Joint::little_1), trail(Joint::little_1),
    lead(Joint::thumb_2), trail(Joint::thumb_2)};

/// One film being read: what stays the same for all its frames.
class Reading {
 public:
  Reading(Random& random, const Detector& detector, View view, const Camera& camera)
      : random_(random),
        detector_(detector),
        view_(view),
        camera_(camera),
        factor_(detector.bias_level * draw(detector.film_factor)),
        jitter_m_(draw(detector.jitter_mm) / 1000),
        scale_(1 + detector.bias_level * random.normal(0, 0.04)) {}

  /// Adds one landmark to every frame.
  void add(std::vector<DetectedFrame>& frames, LandmarkId id, const Vector3d& true_point,
           const Vector3d& hips) {
    const bool is_hidden = hidden(view_, id);
    const Vector3d at = camera_.seen(true_point);
    const Vector2d bias_m = draw_bias(id, is_hidden);
    const double depth_bias_m = detector_.bias_level * random_.normal(0, depth_sd_m);
    const double sure = draw(is_hidden ? detector_.hidden_confidence : detector_.confidence);
    Shiver shiver(random_);
    for (auto& frame : frames) {
      const Vector2d off_m = bias_m + jitter_m_ * shiver.next(random_);
      const double confidence = std::clamp(sure + random_.normal(0, 0.01), 0.0, 1.0);
      frame.image[id] =
          Detected{camera_.project(true_point) + camera_.focal_px / at.z() * off_m, confidence};
      if (detector_.skeleton != Skeleton::points_33) continue;
      const Vector3d off_in_space(off_m.x(), off_m.y(), depth_bias_m);
      frame.space[id] = DetectedInSpace{scale_ * (at - hips + off_in_space), confidence};
    }
  }

  /// In one frame some points jump, as when a detector takes one limb for another.
  void maybe_spoil_one(std::vector<DetectedFrame>& frames, double pixels_per_metre) {
    if (!random_.chance(detector_.outlier_chance)) return;
    auto& frame = frames[static_cast<std::size_t>(random_.uniform(0, double(frames.size())))];
    for (auto& point : frame.image.values()) {
      if (!point || !random_.chance(0.15)) continue;
      point->at_px += random_.normal_2d(0.15 * pixels_per_metre);
    }
  }

 private:
  static constexpr double depth_sd_m = 0.050;

  double draw(Range range) { return random_.uniform(range.low, range.high); }

  Vector2d draw_bias(LandmarkId id, bool is_hidden) {
    const Vector2d unit = random_.normal_2d(1);
    if (detector_.skeleton == Skeleton::points_33) {
      if (const auto offset = offset_33(view_, id)) {
        return detector_.bias_level / 1000 *
               (offset->mean_mm + offset->spread_mm.cwiseProduct(unit));
      }
    }
    return (is_hidden ? hidden_factor : 1.0) * factor_ * bias_sd_mm(id.joint) / 1000 * unit;
  }

  Random& random_;
  const Detector& detector_;
  View view_;
  const Camera& camera_;
  double factor_;
  double jitter_m_;
  double scale_;  ///< of the 3D points
};

}  // namespace

std::span<const LandmarkId> points_of(Skeleton skeleton) {
  const std::span<const LandmarkId> all(body_points);
  switch (skeleton) {
    case Skeleton::coco_17:
      return all.subspan(4, 17);
    case Skeleton::points_25:
      return all.subspan(1, 24);
    case Skeleton::points_33:
      return all.subspan(4);
    case Skeleton::all:
      break;
  }
  return all;
}

std::vector<LandmarkId> found_by(const Detector& detector) {
  const auto body = points_of(detector.skeleton);
  std::vector<LandmarkId> found(body.begin(), body.end());
  if (!detector.hands) return found;
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const auto id = landmark_at(i);
    const bool is_new = std::find(body.begin(), body.end(), id) == body.end();
    if (id.joint >= Joint::thumb_1 && is_new) found.push_back(id);
  }
  return found;
}

bool hidden(View view, LandmarkId id) {
  if (view == View::face_on || id.side != Side::lead) return false;
  switch (id.joint) {
    case Joint::eye:
    case Joint::ear:
    case Joint::elbow:
    case Joint::wrist:
    case Joint::knee:
      return true;
    default:
      return id.joint >= Joint::thumb_1;
  }
}

double bias_sd_mm(Joint joint) {
  // Size of published differences between such estimators and motion capture (10 to 30 mm a joint
  // in 3D), parted over the joints by how well a person could point at them.
  switch (joint) {
    case Joint::hip:
      return 18;
    case Joint::shoulder:
      return 15;
    case Joint::elbow:
      return 14;
    case Joint::nose:
    case Joint::eye:
    case Joint::ear:
      return 8;
    default:
      return joint >= Joint::thumb_1 ? 14 : 12;
  }
}

std::vector<DetectedFrame> detect(Random& random, const Detector& detector, View view,
                                  const Camera& camera, const Points& points) {
  std::vector<DetectedFrame> frames(detector.frames);
  const Vector3d hips = camera.seen((*points[lead(Joint::hip)] + *points[trail(Joint::hip)]) / 2);
  Reading reading(random, detector, view, camera);
  for (const auto id : found_by(detector)) reading.add(frames, id, *points[id], hips);
  if (detector.club) {
    for (const auto id : club_points) reading.add(frames, id, *points[id], hips);
  }
  if (!frames.empty()) reading.maybe_spoil_one(frames, camera.focal_px / hips.z());
  return frames;
}

}  // namespace rangecheck::samples
