// SPDX-License-Identifier: MIT
#include "measure/rotation.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "measure/geometry.hpp"
#include "measure/propagation.hpp"

namespace rangecheck::measure {
namespace {

using posture::Posture;

/// A direction that is known no better than this says nothing of a speed.
constexpr double unclear_rad = 10 * std::numbers::pi / 180;
/// Share of the moments at which the direction has to be clear.
constexpr double clear_share = 0.7;

/// The line whose turn is followed: from the middle of one pair (or a point) to that of another.
struct Followed {
  std::vector<LandmarkId> from, to;
  bool from_above;        ///< its azimuth alone; else its way through space
  std::string_view turn;  ///< id of the words for it: "hips turn"
};

std::vector<Followed> followed_lines() {
  return {{{trail(Joint::hip)}, {lead(Joint::hip)}, true, "turns.hips"},
          {{trail(Joint::shoulder)}, {lead(Joint::shoulder)}, true, "turns.shoulders"},
          {{lead(Joint::shoulder), trail(Joint::shoulder)},
           {lead(Joint::wrist), trail(Joint::wrist)},
           false,
           "turns.arms"},
          {{centre(Joint::grip_end)}, {centre(Joint::hosel)}, false, "turns.club"}};
}

bool shown(const Posture& posture, const Followed& line) {
  const auto in = [&posture](LandmarkId id) {
    return std::ranges::find(posture.evidenced, id) != posture.evidenced.end();
  };
  // Of two wrists one may hide: where one is, so is the other.
  return std::ranges::all_of(line.from, in) && std::ranges::any_of(line.to, in);
}

Point middle(const Posture& posture, const std::vector<LandmarkId>& ids) {
  Point sum = Point::Zero();
  for (const LandmarkId id : ids) sum += *posture.point(id);
  return sum / static_cast<double>(ids.size());
}

Point direction_of(const Posture& posture, const Followed& line) {
  return middle(posture, line.to) - middle(posture, line.from);
}

/// Standard uncertainty of the line's direction along its turn, radians, under `covariance`: of its
/// azimuth from above, else of its direction across the plane that it moves in at most.
double uncertainty_rad(const Posture& posture, const Followed& line,
                       const Eigen::MatrixXd& covariance) {
  Eigen::Matrix3Xd picks = Eigen::Matrix3Xd::Zero(3, covariance.cols());
  const auto pick = [&](const std::vector<LandmarkId>& ids, double sign) {
    for (const LandmarkId id : ids) {
      const auto at = 3 * static_cast<Eigen::Index>(*posture.find(id));
      picks.middleCols<3>(at) +=
          sign / static_cast<double>(ids.size()) * Eigen::Matrix3d::Identity();
    }
  };
  pick(line.to, 1);
  pick(line.from, -1);
  const Eigen::Matrix3d of_line = picks * covariance * picks.transpose();
  const Point d = direction_of(posture, line);
  if (line.from_above) {
    const Point flat = on_ground(d);
    const Point across = Point::UnitY().cross(flat).normalized();
    return std::sqrt(across.dot(of_line * across)) / std::max(coincident_m, flat.norm());
  }
  const Point unit = d.normalized();
  const Eigen::Matrix3d across = Eigen::Matrix3d::Identity() - unit * unit.transpose();
  return std::sqrt((across * of_line * across).trace() / 2) / std::max(coincident_m, d.norm());
}

bool clear(const Posture& posture, const Followed& line) {
  if (!shown(posture, line)) return false;
  const double u_rad = uncertainty_rad(posture, line, posture.covariance);
  return u_rad <= unclear_rad &&
         u_rad <= uncertainty_rad(posture, line, posture.prior_covariance) / 2;
}

/// How far the line has turned since the first moment, radians.
std::vector<double> turned(std::span<const Posture> postures, const Followed& line) {
  std::vector<double> out{0};
  for (std::size_t i = 1; i < postures.size(); ++i) {
    const Point before = direction_of(postures[i - 1], line), now = direction_of(postures[i], line);
    const double step_rad =
        line.from_above
            ? std::remainder(std::atan2(-now.z(), now.x()) - std::atan2(-before.z(), before.x()),
                             2 * std::numbers::pi)
            : std::atan2(before.cross(now).norm(), before.dot(now));
    out.push_back(out.back() + step_rad);
  }
  return out;
}

bool has_points(const Posture& posture, const Followed& line) {
  const auto there = [&posture](LandmarkId id) { return posture.find(id).has_value(); };
  return std::ranges::all_of(line.from, there) && std::ranges::all_of(line.to, there);
}

PeakFound peak_of(std::span<const double> time_s, std::span<const Posture> postures,
                  const Followed& line) {
  const bool there =
      std::ranges::all_of(postures, [&](const Posture& each) { return has_points(each, line); });
  if (postures.empty() || !there) {
    return {std::nullopt,
            {"reason.nothing-shows-turn", {said("turn", {std::string(line.turn)})}},
            {line.from.front().side == Side::centre ? "remedy.club-points"
                                                    : "remedy.whole-body-swing"}};
  }
  const auto clear_at =
      std::ranges::count_if(postures, [&](const Posture& each) { return clear(each, line); });
  if (static_cast<double>(clear_at) < clear_share * static_cast<double>(postures.size())) {
    const auto& missing = postures.front().missing;
    return {
        std::nullopt,
        {"reason.turn-unclear", {said("turn", {std::string(line.turn)})}},
        missing.empty() ? Message{"remedy.closer-and-faster"} : posture::advice(missing.front())};
  }
  const auto angle_rad = turned(postures, line);
  if (auto peak = peak_of_speed(time_s, angle_rad)) return {peak, {}, {}};
  return {std::nullopt,
          {"reason.few-frames-of-turn", {said("turn", {std::string(line.turn)})}},
          {"remedy.120-frames"}};
}

}  // namespace

std::array<PeakFound, 4> rotation_peaks(std::span<const double> time_s,
                                        std::span<const posture::Posture> postures) {
  std::array<PeakFound, 4> out;
  const auto lines = followed_lines();
  for (std::size_t i = 0; i < out.size(); ++i) out[i] = peak_of(time_s, postures, lines[i]);
  return out;
}

}  // namespace rangecheck::measure
