// SPDX-License-Identifier: MIT
// What a pose estimator would make of the film: points that are off by a bias which stays for the
// whole film, shiver from frame to frame and carry a confidence.
#pragma once

#include <span>
#include <vector>

#include "generator/camera.hpp"

namespace rangecheck::samples {

/// Which points are found, and how they are off.
/// all: every body point there is. coco_17: no neck, hands or feet. points_25: with neck and feet.
/// points_33: with hands, heels and big toes, the systematic offsets of such an estimator on
/// golfers and its own 3D points.
enum class Skeleton { all, coco_17, points_25, points_33 };

/// The body points of a skeleton. (Points made from others, as the middle of the hips or the
/// corners of the mouth, are for the writers.)
std::span<const LandmarkId> points_of(Skeleton skeleton);

struct Detector {
  Skeleton skeleton = Skeleton::all;
  double bias_level = 1;         ///< 0 switches biases off; also scales the offsets of points_33
  Range film_factor{0.7, 1.3};   ///< of all biases of one film
  Range jitter_mm{3, 6};         ///< standard deviation, frame to frame, on the body
  double outlier_chance = 0.25;  ///< of a film having one frame with some points far off
  Range confidence{0.6, 1.0};
  Range hidden_confidence{0.2,
                          0.4};  ///< of points behind the body; their bias is 1.6 times as wide
  std::size_t frames = 12;
  bool club = false;   ///< also ball, grip end, hosel and club toe
  bool hands = false;  ///< also the 20 points of each hand, off by as much as other hand points
};

struct Detected {
  Eigen::Vector2d at_px;
  double confidence = 1;
};

/// Camera axes (x right, y down, z forward), metres, origin at the middle of the hips.
struct DetectedInSpace {
  Eigen::Vector3d at_m;
  double confidence = 1;
};

struct DetectedFrame {
  LandmarkMap<Detected> image;
  LandmarkMap<DetectedInSpace> space;  ///< points_33 only
};

/// Standard deviation of a joint's bias along each image axis at level 1, millimetres on the body.
double bias_sd_mm(Joint joint);

std::vector<DetectedFrame> detect(Random& random, const Detector& detector, View view,
                                  const Camera& camera, const Points& points);

}  // namespace rangecheck::samples
