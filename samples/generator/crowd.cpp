// SPDX-License-Identifier: MIT
#include "generator/crowd.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <functional>
#include <memory>
#include <numbers>

#include "generator/bystander.hpp"
#include "generator/crowd_detector.hpp"
#include "generator/film_detector.hpp"
#include "generator/swing_film.hpp"

namespace rangecheck::samples {
namespace {

using Eigen::Vector3d;

enum Part : std::uint64_t { crowd_part = 40, other_part = 50 };

/// Where every point of someone is; time counts from the film's first frame.
struct Mover {
  std::function<Points(double)> points;
  std::function<double(double)> phase = [](double) { return 0.0; };
};

/// The ground as the camera sees it: away from it and to its right, from where the golfer stands.
struct Ground {
  explicit Ground(const Camera& camera) {
    Vector3d forward = camera.axes.row(2);
    forward.y() = 0;
    away = forward.normalized();
    right = away.cross(Vector3d::UnitY());
    const Vector3d to_golfer = golfer - camera.position;
    distance_m = to_golfer.dot(away);
  }
  Vector3d at(double away_m, double right_m) const {
    return golfer + away_m * away + right_m * right;
  }

  Vector3d golfer{0, 0, 0.1}, away, right;
  double distance_m;
};

/// A size of the range, to either side.
double to_a_side(Random& random, double low, double high) {
  const double size = random.uniform(low, high);
  return random.chance(0.5) ? size : -size;
}

Mover passer(Random& random, const Ground& ground, double film_s) {
  const double away_m =
      random.chance(0.5) ? -random.uniform(0.25, 0.62) * ground.distance_m : random.uniform(0.5, 4);
  const double slant = random.normal(0, 0.25);
  const Vector3d velocity = to_a_side(random, 0.7, 1.7) *
                            (std::cos(slant) * ground.right + std::sin(slant) * ground.away);
  auto walker =
      std::make_shared<Walker>(random, ground.at(away_m, 0), random.uniform(0, film_s), velocity);
  return {[walker](double time_s) { return walker->points(time_s); }};
}

Mover coach(Random& random, const Ground& ground) {
  // Nearer to the camera he stands beside the golfer in the picture, farther anywhere.
  const bool nearer = random.chance(0.4);
  const double away_m =
      nearer ? -random.uniform(0.1, 0.45) * ground.distance_m : random.uniform(0, 3);
  const double scale = 1 + away_m / ground.distance_m;
  const double right_m = scale * to_a_side(random, nearer ? 0.5 : 0.3, 1.1);
  const Vector3d place = ground.at(away_m, right_m);
  const Vector3d to = random.chance(0.5) ? Vector3d(ground.golfer - place) : Vector3d(-ground.away);
  auto stander =
      std::make_shared<Stander>(random, place, std::atan2(to.x(), to.z()) + random.normal(0, 0.3));
  return {[stander](double time_s) { return stander->points(time_s); }};
}

/// Someone else who swings, at another time.
Mover swinger(Random& random, std::uint64_t seed, const CrowdOptions& options, const Ground& ground,
              double film_s, bool as_near) {
  SwingOptions swing = options.swing;
  swing.waggle = random.chance(0.5);
  swing.kind = as_near              ? options.swing.kind
               : random.chance(0.7) ? SwingKind::full
                                    : SwingKind::pitch;
  auto motion = draw_motion(seed + 7'000'003, swing);
  auto scene = std::make_shared<SwingScene>(random, std::move(motion), swing);
  const double away_m = as_near ? random.uniform(-0.1, 0.15) * ground.distance_m
                                : random.uniform(0.45, 1.6) * ground.distance_m;
  const double right_m = to_a_side(random, 0.35, 1.1) * (1 + away_m / ground.distance_m);
  const Vector3d offset = ground.at(away_m, right_m) - ground.golfer;
  const double length_s = scene->end_s() - scene->start_s();
  const double later_s =
      random.uniform(std::min(0.0, film_s - length_s), std::max(0.3, film_s - length_s));
  const auto in_scene = [scene, later_s](double time_s) {
    return std::clamp(scene->start_s() + time_s - later_s, scene->start_s(), scene->end_s());
  };
  const auto points = [scene, in_scene, offset](double time_s) {
    Points at = scene->points(in_scene(time_s));
    for (auto& point : at.values())
      if (point) *point += offset;
    return at;
  };
  return {points, [scene, in_scene](double time_s) { return scene->phase(in_scene(time_s)); }};
}

/// The golfer behind an upright plane; who looks for people there finds left for right.
Points mirrored_points(const Points& points, const Vector3d& on_plane, const Vector3d& normal) {
  Points out;
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const LandmarkId id = landmark_at(i);
    if (points[id])
      out[mirrored(id)] = *points[id] - 2 * (*points[id] - on_plane).dot(normal) * normal;
  }
  return out;
}

bool in_picture(const Camera& camera, const Eigen::Vector2d& at) {
  return at.x() >= 0 && at.y() >= 0 && at.x() < camera.width_px && at.y() < camera.height_px;
}

/// What is seen of someone: points out of the picture are not, and less than half is nobody.
std::optional<DetectedFrame> in_the_picture(DetectedFrame frame, const Camera& camera,
                                            Skeleton skeleton) {
  std::size_t inside = 0, all = 0;
  for (std::size_t i = 0; i < landmark_count; ++i) {
    auto& point = frame.image.values()[i];
    if (!point) continue;
    ++all;
    if (in_picture(camera, point->at_px)) {
      ++inside;
    } else if (skeleton != Skeleton::points_33) {
      point.reset();
      frame.space.values()[i].reset();
    } else {
      point->confidence = std::min(point->confidence, 0.1);
    }
  }
  if (2 * inside < all) return std::nullopt;
  return frame;
}

class CrowdScene {
 public:
  CrowdScene(std::uint64_t seed, const CrowdOptions& options)
      : seed_(seed), options_(options), random_(Random::for_part(seed, crowd_part)) {
    if (options.address_only) {
      stand();
    } else {
      SwingOptions swing = options.swing;
      swing.base.views.resize(1);
      film_ = draw_swing(seed, swing).films.front();
    }
  }

  CrowdFilm draw() {
    std::vector<Appearance> cast{golfer()};
    for (std::size_t i = 0; i < options_.others.size(); ++i) cast.push_back(other(i));
    const auto people = detect_crowd(random_, options_, film_.camera, options_.swing.rate_hz, cast);
    return {std::move(film_), people};
  }

 private:
  /// A film of standing at address.
  void stand() {
    Options base = options_.swing.base;
    base.views.resize(1);
    base.detector.frames = static_cast<std::size_t>(options_.swing.rate_hz);
    auto drawn = samples::draw(seed_, base).films.front();
    film_.view = drawn.view;
    film_.camera = drawn.camera;
    film_.frames = std::move(drawn.frames);
    for (std::size_t i = 0; i < film_.frames.size(); ++i) {
      film_.number.push_back(i);
      film_.time_s.push_back(static_cast<double>(i) / options_.swing.rate_hz);
      film_.truth.push_back(drawn.points);
    }
  }

  Appearance golfer() const {
    Appearance out;
    for (std::size_t i = 0; i < film_.frames.size(); ++i) {
      out.frames.emplace_back(film_.frames[i]);
      out.depth_m.push_back(film_.camera.seen(*film_.truth[i][centre(Joint::pelvis)]).z());
    }
    return out;
  }

  Appearance other(std::size_t index) {
    auto random = Random::for_part(seed_, other_part + index);
    const Ground ground(film_.camera);
    const double film_s = film_.time_s.back();
    switch (options_.others[index]) {
      case Other::passer:
        return seen(random, passer(random, ground, film_s), 1);
      case Other::coach:
        return seen(random, coach(random, ground), 1);
      case Other::golfer:
        return seen(random, swinger(random, seed_ + index, options_, ground, film_s, false), 1);
      case Other::twin:
        return seen(random, swinger(random, seed_ + index, options_, ground, film_s, true), 1);
      case Other::reflection:
        break;
    }
    return reflection(random, ground);
  }

  Appearance reflection(Random& random, const Ground& ground) {
    // A window behind the golfer or beside.
    const bool behind = random.chance(0.6);
    const double turned = random.normal(0, 0.12), s = to_a_side(random, 1, 1);
    const Vector3d along = behind ? ground.away : Vector3d(s * ground.right);
    const Vector3d across = behind ? ground.right : ground.away;
    const Vector3d normal = std::cos(turned) * along + std::sin(turned) * across;
    const Vector3d plane = ground.golfer + random.uniform(behind ? 0.7 : 0.5, 1.6) * normal;
    std::vector<std::optional<Points>> points;
    for (const auto& each : film_.truth) points.emplace_back(mirrored_points(each, plane, normal));
    return seen(random, points, std::vector<double>(points.size(), 0), random.uniform(0.5, 0.95));
  }

  Appearance seen(Random& random, const Mover& mover, double sure) {
    std::vector<std::optional<Points>> points;
    std::vector<double> phases;
    for (const double time_s : film_.time_s) {
      points.emplace_back(mover.points(time_s));
      phases.push_back(mover.phase(time_s));
    }
    return seen(random, points, phases, sure);
  }

  /// `sure` scales confidences.
  Appearance seen(Random& random, const std::vector<std::optional<Points>>& points,
                  const std::vector<double>& phases, double sure) {
    constexpr double nearest_m = 0.6;
    const Camera& camera = film_.camera;
    std::vector<Instant> instants;
    std::vector<std::size_t> at;
    Appearance out;
    out.frames.resize(points.size());
    for (std::size_t i = 0; i < points.size(); ++i) {
      const double depth_m = camera.seen(*(*points[i])[centre(Joint::pelvis)]).z();
      out.depth_m.push_back(depth_m);
      if (depth_m < nearest_m) continue;
      instants.push_back({*points[i], {}, phases[i]});
      at.push_back(i);
    }
    if (instants.empty()) return out;
    const Detector& detector = options_.swing.base.detector;
    const auto frames = detect_moving(random, detector, film_.view, camera, instants);
    for (std::size_t k = 0; k < frames.size(); ++k) {
      out.frames[at[k]] = in_the_picture(frames[k], camera, detector.skeleton);
      if (!out.frames[at[k]]) continue;
      for (auto& point : out.frames[at[k]]->image.values())
        if (point) point->confidence *= sure;
    }
    return out;
  }

  std::uint64_t seed_;
  const CrowdOptions& options_;
  Random random_;
  FilmedSwing film_;
};

}  // namespace

CrowdFilm draw_crowd(std::uint64_t seed, const CrowdOptions& options) {
  return CrowdScene(seed, options).draw();
}

}  // namespace rangecheck::samples
