// SPDX-License-Identifier: MIT
// Posture is the body at one instant, in three dimensions: one estimate from whatever evidence
// there is. This header states the frame for everyone after it.
//
// Golfer frame, right-handed, metres, the same for every golfer (left-handers are mirrored at
// intake):
//   X along the target line toward the target, Y up, Z from the golfer toward the ball.
//   Origin on the ground under the mid-point of the heels at address.
// Signs: a line in the ground plane is open positive (lead end farther from the ball line); a
// frontal tilt is positive with the trail side lower; forward bend toward the ball and side bend
// away from the target are positive.
#pragma once

#include <Eigen/Core>
#include <optional>
#include <string>
#include <vector>

#include "base/message.hpp"
#include "base/skeleton.hpp"
#include "base/units.hpp"
#include "intake/submission.hpp"

namespace rangecheck::posture {

using Point = Eigen::Vector3d;  ///< metres, golfer frame

/// A pinhole camera in the golfer frame. Rows of `axes`: image right, image down, forward.
/// A point p projects to principal point + focal_px * (axes (p − position)).xy / .z.
struct Camera {
  Eigen::Matrix3d axes = Eigen::Matrix3d::Identity();
  Point position = Point::Zero();
  double focal_px = 0;
  Eigen::Vector2d principal_px = Eigen::Vector2d::Zero();
};

/// A number with its standard uncertainty, in the unit that its name says.
struct Uncertain {
  double value = 0, u = 0;
};

/// Where a film's camera stood, as people put it.
struct CameraSeen {
  intake::View view = intake::View::face_on;
  Uncertain height_m;    ///< above the golfer's ground
  Uncertain distance_m;  ///< along the ground, from between the feet and the ball
  /// How far round the golfer from where the view's name puts it: positive when it stands too far
  /// to the left, as it looks at the golfer. Where it points does not matter.
  Uncertain off_square_rad;
  Uncertain pitch_rad;  ///< positive when it looks down
  Uncertain roll_rad;   ///< positive when it is turned anticlockwise, seen from behind it
};

/// How well one source of evidence agrees with all the others.
struct Agreement {
  Message source;         ///< "stature", "shoe size", "face-on film", …
  double chi_square = 0;  ///< of its residuals, each over its own spread
  double freedom = 0;     ///< expected value if all is well (trace of I − leverage)
  double surprise = 0;    ///< largest standardised residual (Baarda 1968)
  bool is_film = false;   ///< the landmarks of a film, against a fact that a person gave
};

/// How far an estimator's own points in space lie from what two pictures show, once turn, scale,
/// shift and what such points are known to be off by are taken out: root mean square over joints.
struct SpaceAgreement {
  intake::View view = intake::View::face_on;
  double rms_across_m = 0;  ///< in the plane of the film's picture
  double rms_depth_m = 0;   ///< along its line of sight
  /// The same over joints and axes, each in units of its standard uncertainty, that of the points
  /// and that of the pictures taken together: 1 is what is to be expected.
  double rms_in_u = 0;
  bool mirror_image = false;  ///< they would fit much better with their depth turned round
  int joints = 0;
};

/// Something the estimate says about its own evidence, for people.
struct Finding {
  bool refuses = false;  ///< no grade may be built on this posture
  Message source, text, remedy;
  bool about_camera = false;  ///< where one stands; its remedy is about setting it up
};

/// An observation that is not there but could be: what a remedy is chosen from.
enum class Observation {
  face_on_film,
  down_the_line_film,
  target_stick,
  stature,
  shoe_size,
  focal_length
};
Message advice(Observation observation);

/// Where the points are and how sure that is.
///
/// `mean` stacks the points of `landmarks` (3 numbers each, metres, golfer frame), and after them,
/// at a later position, those of `address_landmarks`: the same golfer at address, so that what has
/// changed since can be measured with what both estimates share. All covariances are of `mean`, m².
/// `prior_covariance` is what prior knowledge alone would leave at the same place;
/// `covariance_with[i]` is what would remain had `missing[i]` been observed too.
struct Posture {
  std::vector<LandmarkId> landmarks;
  std::vector<LandmarkId> address_landmarks;  ///< empty at address itself
  Eigen::VectorXd mean;
  Eigen::MatrixXd covariance;
  Eigen::MatrixXd prior_covariance;
  std::vector<Observation> missing;
  std::vector<Eigen::MatrixXd> covariance_with;
  /// Landmarks that some film, reading or person actually showed. Others are placed by the rest of
  /// the body and prior knowledge only.
  std::vector<LandmarkId> evidenced;
  Length stature;  ///< estimated, with the prior where none was given
  std::vector<std::pair<intake::View, Camera>> cameras;  ///< of films with a picture
  std::vector<CameraSeen> cameras_seen;  ///< the same, with uncertainties; at address only
  std::vector<Agreement> agreement;
  std::vector<SpaceAgreement> space_agreement;  ///< at address only
  std::vector<Finding> findings;
  double birge_ratio = 1;  ///< by which every uncertainty above has been widened; 1 = not

  /// Index into `landmarks` (times 3 for `mean`), or nothing.
  std::optional<std::size_t> find(LandmarkId id) const;
  /// Index of the point at address, counted on from `landmarks`, or nothing. At address itself the
  /// same as `find`.
  std::optional<std::size_t> find_at_address(LandmarkId id) const;
  /// The point, or nothing when the posture does not have it.
  std::optional<Point> point(LandmarkId id) const;
};

}  // namespace rangecheck::posture
