// SPDX-License-Identifier: MIT
#include "posture/space_error.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "posture/landmark_error.hpp"

namespace rangecheck::posture {
namespace {

using intake::SpaceSource;

constexpr double degree = 1 / 57.29577951308232;

struct Row {
  LandmarkId id;
  std::array<double, 3> mean_mm, spread_mm;  // right, down, away
};

/// The 33-point set's points in space against true joint centres, once turn, scale, shift and the
/// pull below are taken out: mean and standard deviation over films of eight rendered golfers at
/// address, side view from behind the trail side.
constexpr std::array<Row, 21> front_33{{
    {centre(Joint::nose), {-24, -67, -39}, {9, 23, 41}},
    {lead(Joint::eye), {-36, -34, -16}, {7, 18, 32}},
    {trail(Joint::eye), {4, -44, -55}, {6, 19, 32}},
    {lead(Joint::ear), {-40, 25, 17}, {24, 12, 19}},
    {trail(Joint::ear), {19, 66, 17}, {17, 6, 15}},
    {lead(Joint::shoulder), {-27, 25, 0}, {23, 22, 21}},
    {trail(Joint::shoulder), {46, -78, 55}, {35, 9, 30}},
    {lead(Joint::elbow), {-13, 13, 8}, {38, 24, 32}},
    {trail(Joint::elbow), {15, -9, 23}, {21, 15, 43}},
    {lead(Joint::wrist), {14, -7, 34}, {28, 17, 65}},
    {trail(Joint::wrist), {-45, -27, -42}, {12, 23, 49}},
    {lead(Joint::hip), {2, 40, -4}, {11, 11, 52}},
    {trail(Joint::hip), {22, 35, -62}, {33, 18, 56}},
    {lead(Joint::knee), {17, 74, 5}, {8, 13, 47}},
    {trail(Joint::knee), {32, -12, -18}, {17, 6, 48}},
    {lead(Joint::ankle), {34, 27, 25}, {10, 10, 5}},
    {trail(Joint::ankle), {-2, -3, 0}, {9, 7, 22}},
    {lead(Joint::heel), {34, 23, -19}, {17, 8, 9}},
    {trail(Joint::heel), {-21, -8, -86}, {12, 9, 30}},
    {lead(Joint::big_toe), {-26, 4, 122}, {14, 20, 16}},
    {trail(Joint::big_toe), {-5, -44, 34}, {20, 17, 34}},
}};
constexpr std::array<Row, 21> side_33{{
    {centre(Joint::nose), {-17, 1, -31}, {8, 7, 15}},
    {lead(Joint::eye), {-11, 27, -35}, {11, 6, 13}},
    {trail(Joint::eye), {5, 11, -48}, {8, 9, 12}},
    {lead(Joint::ear), {-37, 38, -26}, {16, 15, 14}},
    {trail(Joint::ear), {-40, 51, -2}, {11, 9, 20}},
    {lead(Joint::shoulder), {-5, 29, 33}, {11, 20, 12}},
    {trail(Joint::shoulder), {53, -116, 70}, {11, 6, 12}},
    {lead(Joint::elbow), {-2, 13, 96}, {17, 17, 29}},
    {trail(Joint::elbow), {4, -37, -83}, {21, 11, 25}},
    {lead(Joint::wrist), {42, 19, 165}, {20, 14, 54}},
    {trail(Joint::wrist), {-15, -41, -164}, {11, 13, 30}},
    {lead(Joint::hip), {4, 9, 18}, {13, 9, 26}},
    {trail(Joint::hip), {33, -19, -44}, {14, 8, 28}},
    {lead(Joint::knee), {-21, 46, 3}, {23, 15, 22}},
    {trail(Joint::knee), {23, -26, -29}, {12, 11, 17}},
    {lead(Joint::ankle), {8, 24, 54}, {11, 15, 18}},
    {trail(Joint::ankle), {-6, -6, -8}, {7, 8, 23}},
    {lead(Joint::heel), {43, 7, 71}, {10, 14, 21}},
    {trail(Joint::heel), {42, -15, -65}, {8, 6, 29}},
    {lead(Joint::big_toe), {-73, 9, 44}, {17, 16, 31}},
    {trail(Joint::big_toe), {-32, -23, -20}, {9, 10, 26}},
}};
/// Eight films are few: a spread estimated from them is itself unsure by a quarter. Other golfers,
/// clothes and postures add a floor: depth follows the posture, and these films have few of them.
/// Against a table of the seven others, 98 % of a film's coordinates lie within its 95 % intervals.
constexpr double small_sample_factor = 1.3;
constexpr double unseen_across_m = 0.020, unseen_depth_m = 0.040;

/// Points that are guessed from one picture by estimators in general: 37 mm a joint after turn,
/// scale and shift are taken out, where they were taught (Pavllo et al. 2019, arXiv 1811.11742,
/// from memory), and about twice that elsewhere; most of it along the line of sight.
constexpr double guessed_across_m = 0.035, guessed_depth_m = 0.070;
/// Arms and feet are guessed worse than the trunk. Common practice, no source.
constexpr double guessed_limb_factor = 1.4;

bool is_limb_end(Joint joint) {
  switch (joint) {
    case Joint::nose:
    case Joint::eye:
    case Joint::ear:
    case Joint::neck:
    case Joint::head_top:
    case Joint::shoulder:
    case Joint::mid_spine:
    case Joint::hip:
    case Joint::pelvis:
    case Joint::knee:
      return false;
    default:
      return true;
  }
}

struct Depth {
  double across_m, depth_m;
};

/// A depth camera's joints against motion capture: 10 to 60 mm a joint, least at the trunk and
/// worst at the feet (Albert et al. 2020, Sensors 20:5104, from memory), parted over the axes; the
/// surface that it sees lies before the joint, so that depth is less sure than the rest (common
/// practice, no source).
Depth depth_camera_sigma(Joint joint) {
  switch (joint) {
    case Joint::nose:
    case Joint::eye:
    case Joint::ear:
    case Joint::neck:
    case Joint::head_top:
      return {0.018, 0.024};  // Albert et al. 2020, from memory
    case Joint::shoulder:
    case Joint::mid_spine:
      return {0.018, 0.024};  // Albert et al. 2020, from memory
    case Joint::hip:
    case Joint::pelvis:
      return {0.022, 0.030};  // Albert et al. 2020, from memory
    case Joint::knee:
      return {0.018, 0.026};  // Albert et al. 2020, from memory
    case Joint::ankle:
      return {0.022, 0.030};  // Albert et al. 2020, from memory
    case Joint::heel:
    case Joint::big_toe:
    case Joint::small_toe:
      return {0.032, 0.042};  // Albert et al. 2020, from memory
    default:
      return {0.022, 0.030};  // arms: common practice, no source
  }
}

/// Points told with less confidence than this are doubted more the less it is, as in a picture.
double doubt(double confidence) { return 1 + 1.2 * std::max(0.0, (0.7 - confidence) / 0.7); }

const Row* row_of(const SpaceKind& kind, LandmarkId id) {
  if (kind.source != SpaceSource::one_camera || kind.estimator != intake::Estimator::points_33) {
    return nullptr;
  }
  const auto& table = kind.view == intake::View::face_on ? front_33 : side_33;
  const auto row =
      std::find_if(table.begin(), table.end(), [id](const Row& each) { return each.id == id; });
  return row == table.end() ? nullptr : &*row;
}

SpaceError of_row(const Row& row) {
  const auto widened = [&row](int axis) {
    return std::hypot(small_sample_factor * row.spread_mm[axis] / 1000,
                      axis == 2 ? unseen_depth_m : unseen_across_m);
  };
  return {Eigen::Vector3d(row.mean_mm[0], row.mean_mm[1], row.mean_mm[2]) / 1000,
          {widened(0), widened(1), widened(2)}};
}

SpaceError even(Depth sigma, double times) {
  return {Eigen::Vector3d::Zero(),
          times * Eigen::Vector3d(sigma.across_m, sigma.across_m, sigma.depth_m)};
}

}  // namespace

bool is_measured(SpaceSource source) { return source != SpaceSource::one_camera; }

SpaceError space_error(const SpaceKind& kind, LandmarkId id, double confidence) {
  if (const Row* row = row_of(kind, id)) return of_row(*row);
  switch (kind.source) {
    case SpaceSource::depth_camera:
      return even(depth_camera_sigma(id.joint), doubt(confidence));
    case SpaceSource::several_cameras:
    case SpaceSource::uncalibrated_cameras: {
      // Nakano et al. 2020 (landmark_error.cpp) is of points from several cameras: that level.
      const double sigma_m =
          landmark_error(intake::Estimator::unknown, kind.view, id, confidence).sigma_m.mean();
      return even({sigma_m, sigma_m}, 1);
    }
    case SpaceSource::one_camera:
      break;
  }
  return even({guessed_across_m, guessed_depth_m},
              doubt(confidence) * (is_limb_end(id.joint) ? guessed_limb_factor : 1));
}

SpaceFrame space_frame(const SpaceKind& kind) {
  switch (kind.source) {
    case SpaceSource::depth_camera:
      // Tilted as it has to be to see the whole body, else put up like any camera; its distances
      // are good to a hundredth. Common practice, no source.
      return {{0, 0, 0}, {10 * degree, 5.5 * degree, 2 * degree}, 0, 0.015};
    case SpaceSource::several_cameras:
      // Gravity from calibration on the floor; heading by how the golfer's feet stand. Common
      // practice, no source.
      return {{0, 0, 0}, {1.5 * degree, 15 * degree, 1.5 * degree}, 0, 0.010};
    case SpaceSource::uncalibrated_cameras:
      // Put up like any camera; intake has made the golfer of usual size. Common practice, no
      // source.
      return {{0, 0, 0}, {10 * degree, 5.5 * degree, 2 * degree}, 0, 0.15};
    case SpaceSource::one_camera:
      break;
  }
  if (kind.estimator != intake::Estimator::points_33) {
    return {{0, 0, 0}, {14 * degree, 14 * degree, 7 * degree}, 0, 0.15};
  }
  // Calibrated with the tables above; half the spread again for golfers and cameras unlike those.
  return kind.view == intake::View::face_on ? SpaceFrame{{11 * degree, -3 * degree, 0},
                                                         {5 * degree, 9 * degree, 3 * degree},
                                                         -0.03,
                                                         0.09}
                                            : SpaceFrame{{9 * degree, 9 * degree, 2 * degree},
                                                         {5 * degree, 8 * degree, 3 * degree},
                                                         -0.07,
                                                         0.09};
}

std::optional<SpacePull> space_pull(const SpaceKind& kind) {
  if (is_measured(kind.source)) return std::nullopt;
  // Fitted to the same films: the shoulders' difference along Z is shown at 0.4 of what it is, that
  // of hips and knees at 0.65.
  if (kind.estimator == intake::Estimator::points_33) return SpacePull{0.30, 0.10};
  return SpacePull{0.15, 0.15};  // others may or may not: common practice, no source
}

double space_pull_times(Joint joint) {
  switch (joint) {
    case Joint::shoulder:
      return 1;
    case Joint::hip:
    case Joint::knee:
      return 0.55;
    default:
      return 0;
  }
}

}  // namespace rangecheck::posture
