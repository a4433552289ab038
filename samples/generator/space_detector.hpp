// SPDX-License-Identifier: MIT
// What estimators of points in space would make of a film: a depth camera, several cameras that see
// a joint from all round, or one that guesses depth from a picture. Points are off by a bias that
// stays for the film and one that changes with the posture, and shiver from frame to frame; the
// frame that they are given in is not quite level or square.
#pragma once

#include <span>
#include <vector>

#include "generator/detector.hpp"

namespace rangecheck::samples {

enum class SpaceKind { one_camera, depth_camera, several_cameras };

/// Camera axes (x right, y down, z forward), metres. `points` are the joints, frame by frame.
/// `camera` is where a depth camera stands, and what others' frames are laid
/// along. Frames have points in space only.
///
/// one_camera: no size to rely on, origin at the middle of the hips, drawn toward square.
/// depth_camera: no heels. several_cameras: turned so that the feet of the first posture point at
/// the camera, give or take two degrees.
std::vector<DetectedFrame> detect_in_space(Random& random, SpaceKind kind, const Camera& camera,
                                           std::span<const Points> points);

}  // namespace rangecheck::samples
