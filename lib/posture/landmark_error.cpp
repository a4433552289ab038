// SPDX-License-Identifier: MIT
#include "posture/landmark_error.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace rangecheck::posture {
namespace {

/// Spread of a human annotator's keypoint over the square root of the person's area: the COCO
/// constants (cocodataset.org, keypoint evaluation; feet: Jin et al. 2020, arXiv 2007.11858, mean
/// of both sides; hands: the same paper, wrist end). They give the proportions between joints only.
double keypoint_constant(Joint joint) {
  switch (joint) {
    case Joint::nose:
      return 0.026;
    case Joint::eye:
      return 0.025;
    case Joint::ear:
      return 0.035;
    case Joint::shoulder:
      return 0.079;
    case Joint::elbow:
      return 0.072;
    case Joint::wrist:
      return 0.062;
    case Joint::hip:
      return 0.107;
    case Joint::knee:
      return 0.087;
    case Joint::ankle:
      return 0.089;
    case Joint::big_toe:
      return 0.080;
    case Joint::small_toe:
      return 0.079;
    case Joint::heel:
      return 0.080;
    default:
      return 0.062;
  }
}

/// Metres on the body for one unit of the constants above, and what every point has besides: no
/// point of a body is sharper than that. Together they set the level: errors in space of 47 % under
/// 20 mm and 80 % under 30 mm (Nakano et al. 2020, Front Sports Act Living 2:50) are about 14 mm
/// along one axis, and the mean constant of the limbs is 0.082.
constexpr double metres_per_constant = 0.130;
constexpr double least_sigma_m = 0.009;

/// Doubt grows as the estimator's own confidence falls: 1 at 0.7 and above, 2.2 at 0.
/// Calibrated with the table below, where points at 0.2–0.35 have about twice the spread.
double confidence_factor(double confidence) {
  return 1 + 1.2 * std::max(0.0, (0.7 - confidence) / 0.7);
}

struct Row {
  Joint joint;
  Side side;
  double right_mm, down_mm;  // median of the estimator's point against the true one
  // The larger of 1.48 × the median absolute deviation over twelve golfers and the root mean square
  // over eight: the former forgets the one golfer in ten who is read badly.
  double right_spread_mm, down_spread_mm;
};

/// The 33-point set against true joint centres: films of twelve rendered golfers at address, side
/// view from behind the trail side (so trail is near). Eyes, nose and the side view's shoulders
/// (what is left once shoulder_pull is taken out): eight of those films.
constexpr std::array<Row, 21> front_33{{
    {Joint::nose, Side::centre, -1, -36, 11, 26},  {Joint::eye, Side::lead, -12, -9, 11, 20},
    {Joint::eye, Side::trail, 14, -9, 12, 24},     {Joint::ear, Side::lead, -39, 36, 23, 16},
    {Joint::ear, Side::trail, 45, 27, 25, 18},     {Joint::shoulder, Side::lead, -7, -19, 20, 6},
    {Joint::shoulder, Side::trail, 8, -23, 18, 5}, {Joint::elbow, Side::lead, -13, 10, 46, 29},
    {Joint::elbow, Side::trail, 14, -6, 13, 21},   {Joint::wrist, Side::lead, -6, 4, 33, 25},
    {Joint::wrist, Side::trail, 2, 0, 10, 19},     {Joint::hip, Side::lead, -5, -4, 15, 16},
    {Joint::hip, Side::trail, 10, 3, 17, 18},      {Joint::knee, Side::lead, -1, 11, 8, 12},
    {Joint::knee, Side::trail, -4, 6, 7, 12},      {Joint::ankle, Side::lead, 7, -28, 4, 5},
    {Joint::ankle, Side::trail, -5, -27, 8, 6},    {Joint::heel, Side::lead, -1, -15, 11, 7},
    {Joint::heel, Side::trail, -1, -17, 13, 6},    {Joint::big_toe, Side::lead, -15, -14, 11, 4},
    {Joint::big_toe, Side::trail, 2, -14, 13, 4},
}};
constexpr std::array<Row, 21> side_33{{
    {Joint::nose, Side::centre, -5, -16, 14, 6},     {Joint::eye, Side::lead, -2, 4, 12, 10},
    {Joint::eye, Side::trail, -4, 5, 9, 11},         {Joint::ear, Side::lead, 15, 31, 21, 14},
    {Joint::ear, Side::trail, 11, 40, 17, 18},       {Joint::shoulder, Side::lead, 28, 1, 17, 24},
    {Joint::shoulder, Side::trail, -1, -35, 12, 13}, {Joint::elbow, Side::lead, 13, 43, 23, 18},
    {Joint::elbow, Side::trail, -6, -14, 11, 9},     {Joint::wrist, Side::lead, 36, 30, 19, 13},
    {Joint::wrist, Side::trail, 7, 5, 7, 11},        {Joint::hip, Side::lead, 24, 15, 14, 18},
    {Joint::hip, Side::trail, 28, 3, 15, 17},        {Joint::knee, Side::lead, 7, 2, 17, 28},
    {Joint::knee, Side::trail, 0, -19, 6, 12},       {Joint::ankle, Side::lead, -1, -23, 12, 20},
    {Joint::ankle, Side::trail, -3, -30, 5, 11},     {Joint::heel, Side::lead, 16, -21, 10, 25},
    {Joint::heel, Side::trail, 8, -18, 17, 9},       {Joint::big_toe, Side::lead, -21, 0, 11, 8},
    {Joint::big_toe, Side::trail, -35, -5, 8, 7},
}};
/// Twelve films are few: a spread estimated from them is itself unsure by a sixth; and other
/// golfers, clothes and light add a floor.
constexpr double small_sample_factor = 1.15;
constexpr double unseen_golfers_sigma_m = 0.005;

LandmarkError generic(Joint joint, double confidence) {
  const double sigma = std::hypot(least_sigma_m, metres_per_constant * keypoint_constant(joint)) *
                       confidence_factor(confidence);
  return {Eigen::Vector2d::Zero(), Eigen::Vector2d::Constant(sigma)};
}

double widened(double spread_mm) {
  return std::hypot(small_sample_factor * spread_mm / 1000, unseen_golfers_sigma_m);
}

}  // namespace

LandmarkError landmark_error(intake::Estimator estimator, intake::View view, LandmarkId id,
                             double confidence) {
  if (estimator == intake::Estimator::points_33) {
    const auto& table = view == intake::View::face_on ? front_33 : side_33;
    const auto row = std::find_if(table.begin(), table.end(), [&](const Row& r) {
      return r.joint == id.joint && r.side == id.side;
    });
    if (row != table.end()) {
      return {Eigen::Vector2d(row->right_mm, row->down_mm) / 1000,
              {widened(row->right_spread_mm), widened(row->down_spread_mm)}};
    }
  }
  return generic(id.joint, confidence);
}

std::optional<ShoulderPull> shoulder_pull(intake::Estimator estimator, intake::View view) {
  if (estimator != intake::Estimator::points_33 || view != intake::View::down_the_line) {
    return std::nullopt;
  }
  // Fitted to the same eight films, four of them with shoulders open by 17 to 31 degrees: the far
  // shoulder's error along Z grows by 0.19 of the true offset of the two, the near one's falls by
  // it.
  return ShoulderPull{0.19, 0.07};
}

}  // namespace rangecheck::posture
