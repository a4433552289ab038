// SPDX-License-Identifier: MIT
#include "posture/space_fit.hpp"

#include <Eigen/SVD>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "posture/body.hpp"
#include "posture/priors.hpp"
#include "posture/space.hpp"

namespace rangecheck::posture {
namespace {

/// A mirror image fits a golfer at address this much better than the points themselves.
constexpr double clearly_better = 0.85;
/// Farther off upright, or round the golfer, than any camera stands under that view's name.
constexpr double not_upright_deg = 45, elsewhere_deg = 50;
/// Points that lie so many uncertainties off two pictures are of another body: those of the
/// rendered films (tests/films), each left out of the table that it is held against, lie 0.4 to 1.1
/// off.
constexpr double far_in_u = 1.5;

double degrees(double rad) { return rad * 180 / std::numbers::pi; }

/// The places and points of the joints that have both, one a column, about their middles.
struct Pairs {
  std::vector<LandmarkId> ids;
  Eigen::Matrix3Xd joints, points;
  Eigen::Vector3d middle_of_joints = Eigen::Vector3d::Zero();
  Eigen::Vector3d middle_of_points = Eigen::Vector3d::Zero();
};

Pairs pairs_of(const ViewEvidence& view, const LandmarkMap<Point>& joints) {
  const Eigen::Matrix3d axes = nominal_axes(view.view);
  Pairs out;
  out.joints.resize(3, landmark_count);
  out.points.resize(3, landmark_count);
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const LandmarkId id = landmark_at(i);
    if (!view.still.spatial.has(id) || !joints.has(id) || id.joint == Joint::ball) continue;
    const auto column = std::ssize(out.ids);
    out.ids.push_back(id);
    out.joints.col(column) = axes * *joints[id];
    out.points.col(column) = placed_at_address(view, id, false).at_m;
  }
  const auto count = std::ssize(out.ids);
  out.joints.conservativeResize(3, count);
  out.points.conservativeResize(3, count);
  if (count == 0) return out;
  out.middle_of_joints = out.joints.rowwise().mean();
  out.middle_of_points = out.points.rowwise().mean();
  out.joints.colwise() -= out.middle_of_joints;
  out.points.colwise() -= out.middle_of_points;
  return out;
}

}  // namespace

double SpaceFit::tilt_rad() const { return std::atan2(turn(2, 1), turn(1, 1)); }
double SpaceFit::bearing_rad() const { return std::atan2(-turn(2, 0), turn(0, 0)); }

SpaceFit fit_space(const ViewEvidence& view, const LandmarkMap<Point>& joints) {
  const Pairs pairs = pairs_of(view, joints);
  SpaceFit out;
  out.joints = static_cast<int>(pairs.joints.cols());
  const double spread = pairs.joints.squaredNorm();
  if (out.joints < 3 || spread <= 0) return out;
  const Eigen::JacobiSVD<Eigen::Matrix3d> svd(pairs.points * pairs.joints.transpose(),
                                              Eigen::ComputeFullU | Eigen::ComputeFullV);
  const double handed = svd.matrixU().determinant() * svd.matrixV().determinant() < 0 ? -1 : 1;
  const Eigen::Vector3d signs(1, 1, handed);
  out.turn = svd.matrixU() * signs.asDiagonal() * svd.matrixV().transpose();
  const double scale = std::max(1e-6, svd.singularValues().dot(signs) / spread);
  out.log_scale = std::log(scale);
  out.shift = pairs.middle_of_points - scale * out.turn * pairs.middle_of_joints;
  const Eigen::Matrix3Xd left = pairs.points / scale - out.turn * pairs.joints;
  for (int i = 0; i < out.joints; ++i) out.left_m[pairs.ids[i]] = left.col(i);
  out.rms_m = left.rowwise().squaredNorm().cwiseSqrt() / std::sqrt(out.joints);
  // Of a reflection the least singular value counts the other way.
  const double other = std::max(1e-6, svd.singularValues().dot(Eigen::Vector3d(1, 1, -handed)));
  const double other_scale = other / spread;
  out.mirrored_rms_m =
      std::sqrt(std::max(0.0, pairs.points.squaredNorm() - other * other_scale) / out.joints) /
      other_scale;
  return out;
}

LandmarkMap<Point> expected_body(double stature_m) {
  LandmarkMap<Point> out;
  for (std::size_t i = 0; i < landmark_count; ++i) {
    out.values()[i] = address_place(landmark_at(i), stature_m);
  }
  return out;
}

bool is_mirror_image(const ViewEvidence& view) {
  const SpaceFit fit = fit_space(view, expected_body(prior::stature_m.mean));
  return fit.joints >= 6 && fit.mirrored_rms_m < clearly_better * fit.rms_m.norm();
}

std::optional<Finding> wrong_space(const ViewEvidence& view) {
  const Message film = intake::film_as_message(view.view);
  if (is_mirror_image(view)) {
    return Finding{
        true, film, {"finding.mirrored-golfer", {said("film", film)}}, {"remedy.mirrored-golfer"}};
  }
  const SpaceFit fit = fit_space(view, expected_body(prior::stature_m.mean));
  const double tilt_deg = degrees(fit.tilt_rad());
  if (std::abs(tilt_deg) > not_upright_deg) {
    return Finding{
        true,
        film,
        {"finding.leans-in-space", {said("film", film), {"off", Number{std::abs(tilt_deg)}}}},
        {"remedy.which-axis-is-up"}};
  }
  const double bearing_deg = degrees(fit.bearing_rad());
  if (std::abs(bearing_deg) > elsewhere_deg) {
    return Finding{
        true,
        film,
        {"finding.turned-in-space", {said("film", film), {"off", Number{std::abs(bearing_deg)}}}},
        {"remedy.correct-view-or-axes"}};
  }
  return std::nullopt;
}

namespace {

/// SpaceAgreement::rms_in_u.
double rms_in_u(const ViewEvidence& view, const SpaceFit& fit, const Posture& posture) {
  const Eigen::Matrix3d axes = fit.turn * nominal_axes(view.view);
  double sum = 0;
  for (const LandmarkId id : posture.landmarks) {
    const auto& left_m = fit.left_m[id];
    if (!left_m) continue;
    const auto at = static_cast<Eigen::Index>(3 * *posture.find(id));
    const Eigen::Matrix3d seen = axes * posture.covariance.block<3, 3>(at, at) * axes.transpose();
    const Eigen::Vector3d sigma_m =
        space_error(kind_of(view), id, view.still.spatial[id]->confidence).sigma_m;
    sum += (left_m->array().square() / (sigma_m.array().square() + seen.diagonal().array())).sum();
  }
  return std::sqrt(sum / (3 * fit.joints));
}

}  // namespace

std::vector<SpaceAgreement> space_agreement(const Evidence& evidence, const Posture& posture) {
  const auto pictures = std::count_if(evidence.views.begin(), evidence.views.end(),
                                      [](const auto& view) { return !view.picture_is_drawn; });
  if (pictures < 2) return {};
  LandmarkMap<Point> joints;
  for (const LandmarkId id : posture.landmarks) joints[id] = posture.point(id);
  std::vector<SpaceAgreement> out;
  for (const auto& view : evidence.views) {
    const SpaceFit fit = fit_space(view, joints);
    if (fit.joints < 6) continue;
    out.push_back({.view = view.view,
                   .rms_across_m = std::hypot(fit.rms_m.x(), fit.rms_m.y()),
                   .rms_depth_m = fit.rms_m.z(),
                   .rms_in_u = rms_in_u(view, fit, posture),
                   .mirror_image = fit.mirrored_rms_m < clearly_better * fit.rms_m.norm(),
                   .joints = fit.joints});
  }
  return out;
}

bool is_gross(const SpaceAgreement& agreement) {
  return agreement.mirror_image || agreement.rms_in_u > far_in_u;
}

std::vector<Finding> findings(const std::vector<SpaceAgreement>& agreement) {
  std::vector<Finding> out;
  for (const auto& each : agreement) {
    if (!is_gross(each)) continue;
    const Message film = intake::film_as_message(each.view);
    const Message what = each.mirror_image ? Message{"finding.mirrored-space", {said("film", film)}}
                                           : Message{"finding.far-in-space",
                                                     {said("film", film),
                                                      {"across", Number{100 * each.rms_across_m}},
                                                      {"depth", Number{100 * each.rms_depth_m}},
                                                      {"times", Number{each.rms_in_u, 1}}}};
    out.push_back({false, film, what, {"remedy.which-way-depth"}});
  }
  return out;
}

}  // namespace rangecheck::posture
