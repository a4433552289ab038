// SPDX-License-Identifier: MIT
#include "generator/film_detector.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "generator/detector_parts.hpp"
#include "generator/offsets_33.hpp"
#include "generator/smooth_path.hpp"

namespace rangecheck::samples {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;

/// A random offset that changes smoothly with the phase of the swing; standard deviation about 1.
class Wander {
 public:
  explicit Wander(Random& random) {
    for (auto& knot : knots_) knot = random.normal_2d(1);
  }
  Vector2d at(double phase) const {
    const double place = std::clamp(phase, 0.0, 5.0) * per_phase;
    const auto before = std::min(static_cast<std::size_t>(place), knots_.size() - 2);
    const double share = smooth_step(place - double(before));
    return (1 - share) * knots_[before] + share * knots_[before + 1];
  }

 private:
  static constexpr double per_phase = 2;
  std::array<Vector2d, 11> knots_;
};

bool is_arm(Joint joint) {
  return joint == Joint::elbow || joint == Joint::wrist || joint >= Joint::thumb_1;
}

/// How a 33-point estimator's offsets change through a swing against those at address, standard
/// deviation in millimetres: seen on rendered swings with known joints.
double change_33_mm(Joint joint) {
  if (is_arm(joint)) return joint == Joint::elbow ? 18 : 20;
  switch (joint) {
    case Joint::shoulder:
      return 25;
    case Joint::hip:
    case Joint::nose:
    case Joint::eye:
    case Joint::ear:
      return 8;
    default:
      return 4;
  }
}

/// How much of a line from the camera to a point passes through a part of the body on the way:
/// 0 none, 1 right through it. The part is a rod of `radius_m` between two points.
double covered(const Camera& camera, const Vector3d& point, const Vector3d& from,
               const Vector3d& to, double radius_m) {
  constexpr int steps = 8;
  const Vector3d sight = (point - camera.position).normalized();
  double most = 0;
  for (int i = 0; i <= steps; ++i) {
    const Vector3d part = from + double(i) / steps * (to - from);
    const double before_m = (point - part).dot(sight);
    const double aside_m = (part + before_m * sight - point).norm();
    const double behind = smooth_step((before_m - 0.5 * radius_m) / radius_m);
    most = std::max(most, behind * smooth_step(2 - 1.5 * aside_m / radius_m));
  }
  return most;
}

/// How far an arm's point is hidden by trunk or head.
double behind_body(const Camera& camera, const Points& points, LandmarkId id) {
  const Vector3d ears = (*points[lead(Joint::ear)] + *points[trail(Joint::ear)]) / 2;
  const double trunk = covered(camera, *points[id], *points[centre(Joint::pelvis)],
                               *points[centre(Joint::neck)], 0.11);
  return std::max(trunk,
                  covered(camera, *points[id], ears, *points[centre(Joint::head_top)], 0.09));
}

/// How short the camera sees the line between the shoulders: 0 in full length, 1 not at all.
double foreshortened(const Camera& camera, const Points& points) {
  const Vector3d line = *points[lead(Joint::shoulder)] - *points[trail(Joint::shoulder)];
  const Vector3d seen = camera.axes * line;
  const double share = 1 - seen.head<2>().norm() / line.norm();
  return share * share;
}

/// One film being read.
class Reading {
 public:
  Reading(Random& random, const Detector& detector, View view, const Camera& camera,
          std::span<const Instant> instants)
      : random_(random),
        detector_(detector),
        view_(view),
        camera_(camera),
        instants_(instants),
        frames_(instants.size()),
        factor_(detector.bias_level * draw(detector.film_factor)),
        jitter_m_(draw(detector.jitter_mm) / 1000),
        space_scale_(1 + detector.bias_level * random.normal(0, 0.04)),
        club_sd_m_(random.uniform(0.008, 0.015)) {}

  std::vector<DetectedFrame> run() {
    for (const auto id : found_by(detector_)) add(id);
    if (detector_.club) {
      for (const auto id : club_points) add_club(id);
    }
    for (std::size_t i = 0; i < frames_.size(); ++i) maybe_spoil(i);
    for (const auto side : {Side::lead, Side::trail}) lose_wrist(side);
    return std::move(frames_);
  }

 private:
  static constexpr double constant_share = 0.7;  // of the bias's variance
  static constexpr double blur_s = 0.004;
  static constexpr double depth_sd_m = 0.050;
  static constexpr Range covered_confidence{0.1, 0.4};

  double draw(Range range) { return random_.uniform(range.low, range.high); }
  bool as_33() const { return detector_.skeleton == Skeleton::points_33; }

  /// What stays the same for one point through the film.
  struct Way {
    Vector2d constant_m;
    double changing_m;  ///< of the part that changes with the posture
    double covered_m;   ///< of what is added where it is covered
    double sure, covered_sure;
    bool is_hidden;
  };

  Way draw_way(LandmarkId id) {
    Way way;
    way.is_hidden = hidden(view_, id);
    const double sd_m =
        (way.is_hidden ? hidden_factor : 1.0) * factor_ * bias_sd_mm(id.joint) / 1000;
    const Vector2d unit = random_.normal_2d(1);
    const auto offset = as_33() ? offset_33(view_, id) : std::nullopt;
    way.constant_m = offset ? Vector2d(detector_.bias_level / 1000 *
                                       (offset->mean_mm + offset->spread_mm.cwiseProduct(unit)))
                            : Vector2d(std::sqrt(constant_share) * sd_m * unit);
    way.changing_m = as_33() ? detector_.bias_level * change_33_mm(id.joint) / 1000
                             : std::sqrt(1 - constant_share) * sd_m;
    way.covered_m =
        as_33() && is_arm(id.joint) ? 0.09 * detector_.bias_level : random_.uniform(2, 4) * sd_m;
    way.sure = draw(way.is_hidden ? detector_.hidden_confidence : detector_.confidence);
    way.covered_sure = std::min(way.sure, draw(covered_confidence));
    return way;
  }

  /// How far the point is lost behind the body. What is hidden at address by its side alone gets
  /// worse when it moves.
  double lost(const Way& way, LandmarkId id, const Instant& instant) const {
    if (!is_arm(id.joint)) return 0;
    const double moving = smooth_step(instant.phase / 0.4);
    return std::max(way.is_hidden ? 0.7 * moving : 0.0,
                    moving * behind_body(camera_, instant.points, id));
  }

  void add(LandmarkId id) {
    const Way way = draw_way(id);
    const Wander changing(random_), when_covered(random_), in_depth(random_);
    const double depth_bias_m = detector_.bias_level * random_.normal(0, depth_sd_m);
    const double line_at_address = foreshortened(camera_, instants_.front().points);
    Shiver shiver(random_);
    for (std::size_t i = 0; i < frames_.size(); ++i) {
      const Instant& now = instants_[i];
      const double gone = lost(way, id, now);
      double changing_m = way.changing_m;
      if (as_33() && id.joint == Joint::shoulder) {
        changing_m += 0.055 * detector_.bias_level *
                      std::max(0.0, foreshortened(camera_, now.points) - line_at_address);
      }
      Vector2d unit = changing.at(now.phase);
      // The table of the 33 points holds for the address.
      if (as_33()) unit -= changing.at(0);
      const Vector2d off_m = way.constant_m + changing_m * unit +
                             gone * way.covered_m * when_covered.at(now.phase) +
                             (1 + 2 * gone) * jitter_m_ * shiver.next(random_);
      const double sure = way.sure + gone * (way.covered_sure - way.sure);
      const double confidence = std::clamp(sure + random_.normal(0, 0.01), 0.0, 1.0);
      frames_[i].image[id] = Detected{seen_at(id, now, off_m), confidence};
      if (!as_33()) continue;
      const Vector3d hips =
          camera_.seen((*now.points[lead(Joint::hip)] + *now.points[trail(Joint::hip)]) / 2);
      const double depth_m =
          depth_bias_m + detector_.bias_level * 0.5 * depth_sd_m * in_depth.at(now.phase).x();
      const Vector3d off_in_space(off_m.x(), off_m.y(), depth_m);
      frames_[i].space[id] = DetectedInSpace{
          space_scale_ * (camera_.seen(*now.points[id]) - hips + off_in_space), confidence};
    }
  }

  /// In the picture: the point, off by so much on the body, and smeared along its way.
  Vector2d seen_at(LandmarkId id, const Instant& now, const Vector2d& off_m) {
    const Vector3d& point = *now.points[id];
    const double blur = random_.normal(0, blur_s) * (detector_.bias_level > 0);
    const Vector2d at = camera_.project(point);
    const Vector2d smear = image_velocity(id, now) * blur;
    return at + camera_.focal_px / camera_.seen(point).z() * off_m + smear;
  }

  /// Pixels a second.
  Vector2d image_velocity(LandmarkId id, const Instant& now) const {
    constexpr double step_s = 1e-4;
    const Vector3d& point = *now.points[id];
    if (!now.velocity[id]) return Vector2d::Zero();
    return (camera_.project(point + step_s * *now.velocity[id]) - camera_.project(point)) / step_s;
  }

  bool in_picture(const Vector2d& at_px) const {
    return at_px.x() >= 0 && at_px.y() >= 0 && at_px.x() < camera_.width_px &&
           at_px.y() < camera_.height_px;
  }

  void add_club(LandmarkId id) {
    const Vector2d constant_m = 0.5 * club_sd_m_ * factor_ * random_.normal_2d(1);
    const double sure = random_.uniform(0.5, 0.9);
    Shiver shiver(random_);
    for (std::size_t i = 0; i < frames_.size(); ++i) {
      const Instant& now = instants_[i];
      const Vector2d off_m = constant_m + 0.87 * club_sd_m_ * shiver.next(random_);
      const Vector2d at = seen_at(id, now, off_m);
      const double speed_mps = now.velocity[id] ? now.velocity[id]->norm() : 0;
      const bool smeared = random_.chance(std::clamp((speed_mps - 14) / 30, 0.0, 0.75));
      const double confidence = std::clamp(sure + random_.normal(0, 0.03), 0.05, 1.0);
      const bool gone = id.joint == Joint::ball && now.phase > 2;
      if (!smeared && !gone && in_picture(at)) frames_[i].image[id] = Detected{at, confidence};
    }
  }

  /// Now and then a limb is taken for something else in one frame.
  void maybe_spoil(std::size_t frame) {
    for (const auto id :
         {lead(Joint::wrist), trail(Joint::wrist), lead(Joint::ankle), trail(Joint::ankle)}) {
      if (!random_.chance(0.008 * detector_.outlier_chance)) continue;
      const double pixels_per_metre =
          camera_.focal_px / camera_.seen(*instants_[frame].points[id]).z();
      auto& point = frames_[frame].image[id];
      if (point) point->at_px += random_.normal_2d(0.15 * pixels_per_metre);
    }
  }

  /// A wrist is not found for one to three frames. The 33-point form has no gaps: there the point
  /// is told with next to no confidence.
  void lose_wrist(Side side) {
    for (std::size_t i = 1; i < frames_.size(); ++i) {
      if (!random_.chance(0.012 * detector_.outlier_chance)) continue;
      const auto length = static_cast<std::size_t>(random_.uniform(1, 4));
      for (std::size_t k = i; k < std::min(i + length, frames_.size()); ++k) {
        auto& point = frames_[k].image[{side, Joint::wrist}];
        if (as_33()) {
          point->confidence = 0.03;
        } else {
          point.reset();
        }
      }
    }
  }

  Random& random_;
  const Detector& detector_;
  View view_;
  const Camera& camera_;
  std::span<const Instant> instants_;
  std::vector<DetectedFrame> frames_;
  double factor_;
  double jitter_m_;
  double space_scale_;
  double club_sd_m_;
};

}  // namespace

std::vector<DetectedFrame> detect_moving(Random& random, const Detector& detector, View view,
                                         const Camera& camera, std::span<const Instant> instants) {
  if (instants.empty()) return {};
  return Reading(random, detector, view, camera, instants).run();
}

}  // namespace rangecheck::samples
