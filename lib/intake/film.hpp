// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/message.hpp"
#include "base/skeleton.hpp"
#include "base/units.hpp"

namespace rangecheck::intake {

/// A point in the picture: x right, y down, pixels. In a mirrored (left-handed) film x has been
/// counted from the other edge, so that lead is on the same side for everyone.
struct ImagePoint {
  double x_px = 0;
  double y_px = 0;
};

/// One landmark of one person in one frame, as the estimator gave it. Missing ones are absent:
/// never at the origin.
struct Sighting {
  ImagePoint at;
  double confidence = 1;  ///< 0..1, clamped; 1 when the estimator gives none
};

/// The estimator's own 3D idea of a landmark. Camera axes: x right, y down, z away from the camera,
/// metres, origin anywhere; true up to rotation, scale and its own (large) spread along z.
struct SpatialSighting {
  double x_m = 0, y_m = 0, z_m = 0;
  double confidence = 1;
};

struct Person {
  LandmarkMap<Sighting> image;
  LandmarkMap<SpatialSighting> space;
  std::optional<int> track;  ///< identity given by the estimator, where it gives a real one
};

struct Frame {
  std::size_t number = 0;        ///< as the estimator numbered it, 0-based where it has no numbers
  std::optional<Duration> time;  ///< stamp, where there is one
  std::vector<Person> people;    ///< in the order of the file; may be empty
};

struct ImageSize {
  double width_px = 0;
  double height_px = 0;
};

/// What kind of estimator wrote the points: its systematic errors are a property of the kind.
enum class Estimator { unknown, points_33 };

/// What saw the points in space: their errors are a property of it.
enum class SpaceSource {
  one_camera,           ///< guessed from one ordinary film: depth is weak
  depth_camera,         ///< measured along the line of sight by one camera
  several_cameras,      ///< triangulated in a room's axes: level, and metres are metres
  uncalibrated_cameras  ///< triangulated in one camera's axes: neither level nor of known size
};

/// A landmark file, read. Frames are in time order.
struct Film {
  std::string dialect;  ///< words for people: "33 named-order points, normalised"
  Estimator estimator = Estimator::unknown;
  bool confidence_given = true;
  std::optional<ImageSize> image;               ///< from the file, or given by the manifest
  std::optional<double> frame_rate_hz;          ///< from the file
  SpaceSource space = SpaceSource::one_camera;  ///< of the points in space, where there are any
  /// The file has points in space only; those in the picture were drawn from them, so that the
  /// golfer can be followed and timed. They are no evidence of their own.
  bool picture_is_drawn = false;
  std::vector<Message> notes;  ///< for the report: what was assumed or left out in reading
  std::vector<Frame> frames;
};

}  // namespace rangecheck::intake
