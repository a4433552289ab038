// SPDX-License-Identifier: MIT
// One made-up submission: a golfer, and the films of him. What tests feed to the estimator.
//
//   Options options;
//   options.views = {View::face_on, View::down_the_line};
//   const Drawn drawn = draw(417, options);
//   drawn.golfer.points[lead(Joint::knee)]            // truth, metres, golfer frame
//   drawn.films[0].frames[0].image[lead(Joint::knee)] // as detected, pixels
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <utility>
#include <vector>

#include "generator/detector.hpp"

namespace rangecheck::samples {

struct Options {
  Age age = Age::adult;
  Setup setup = Setup::iron;
  Family family = Family::neutral;
  std::optional<GripKind> grip = {};  ///< nothing: hands as the arms lay them, the same for all
  std::vector<View> views = {View::face_on, View::down_the_line};
  Placement placement;
  Detector detector;
  /// All films show one posture. Else each shows its own, spread around the golfer's mean posture
  /// (two films: as far on one side of it as on the other).
  bool same_swing = false;
  /// Makes it the same golfer on a later day, filmed anew: what has changed about the posture.
  std::function<void(Address&)> later = {};
};

/// Points a person marked in the picture, pixels.
struct Marked {
  Eigen::Vector2d ball_px;
  /// A stick on the ground beyond the ball, along the target line; the second end nearer the
  /// target.
  std::pair<Eigen::Vector2d, Eigen::Vector2d> stick_px;
};

/// What a person measured about the camera: near the truth, not on it.
struct CameraNotes {
  double focal_px = 0;    ///< within 1 % (standard deviation)
  double height_m = 0;    ///< within 2 cm
  double distance_m = 0;  ///< on the ground from the toes, within 5 cm
};

/// How the golfer of this seed holds the club.
Grip grip_of(std::uint64_t seed, const Options& options);

/// What a person marks in a picture of the golfer at address.
Marked mark(Random& random, const Camera& camera, const Points& points);
CameraNotes note(Random& random, const Camera& camera);

struct FilmedTruth {
  View view = View::face_on;
  Camera camera;
  Points points;  ///< of this film's swing: the golfer's own when same_swing or the only film
  std::vector<DetectedFrame> frames;
  Marked marked;
  CameraNotes notes;
};

struct Drawn {
  Golfer golfer;  ///< the truth to be estimated: the mean posture
  std::vector<FilmedTruth> films;
};

/// The same for the same seed and options, on every machine.
Drawn draw(std::uint64_t seed, const Options& options = {});

}  // namespace rangecheck::samples
