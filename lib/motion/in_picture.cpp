// SPDX-License-Identifier: MIT
#include "motion/in_picture.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "motion/filter.hpp"

namespace rangecheck::motion {
namespace {

/// Below this confidence an estimator as good as says that a point is not there.
constexpr double next_to_nothing = 0.05;
/// Points this near an edge have been put on it. Pixels.
constexpr double on_the_edge_px = 1.5;

/// How high a joint is at address, of the height from the soles to the top of the head, and how
/// much that differs between golfers and cameras, the estimator's own error with it. Means of
/// made-up golfers in both views (samples/generator). The 33-point set has its own mean errors
/// (posture/landmark_error.cpp, over 1.58 m).
struct Level {
  Joint joint;
  double height, sigma;
  double of_33 = 0;  ///< how much higher those points read
};
constexpr std::array from_below{
    Level{Joint::big_toe, 0.018, 0.018, 0.005},
    Level{Joint::small_toe, 0.018, 0.018},
    Level{Joint::heel, 0.046, 0.022, 0.011},
    Level{Joint::ankle, 0.07, 0.025, 0.017},
    Level{Joint::knee, 0.32, 0.04},
    Level{Joint::hip, 0.57, 0.05},
};
constexpr std::array from_above{
    Level{Joint::head_top, 1.00, 0.015},
    Level{Joint::ear, 0.935, 0.022, -0.021},
    Level{Joint::eye, 0.905, 0.025},
    Level{Joint::nose, 0.872, 0.03, 0.016},
    Level{Joint::shoulder, 0.817, 0.04, 0.012},
    Level{Joint::hip, 0.57, 0.05},
};
/// How far feet, head and hands reach beyond their points, sideways and (hands) any way.
constexpr double beside_foot = 0.01, beside_head = 0.05, beyond_wrist = 0.06;
constexpr double beside_sigma = 0.02;
/// The points of a joint that are there.
std::vector<intake::ImagePoint> points_of(const Places& places, Joint joint) {
  std::vector<intake::ImagePoint> out;
  for (const Side side : {Side::centre, Side::lead, Side::trail}) {
    if ((side == Side::centre) == is_paired(joint)) continue;
    if (const auto& point = places[{side, joint}]) out.push_back(*point);
  }
  return out;
}

/// A level that is seen: where, and how high it is for this estimator.
struct SeenLevel {
  double y_px, height, sigma;
};

/// The seen levels, the outermost first, up to and with the first one that tells the whole: one on
/// the edge tells only that the body goes on at least so far, and of feet the lower may be missing.
template <class Levels>
std::vector<SeenLevel> outer_levels(const Places& places, const Levels& levels, bool from_33,
                                    std::optional<double> bottom_px) {
  std::vector<SeenLevel> out;
  for (const Level& level : levels) {
    const auto points = points_of(places, level.joint);
    if (points.empty()) continue;
    double lowest_px = points.front().y_px, sum_px = 0;
    for (const auto& point : points) {
      lowest_px = std::max(lowest_px, point.y_px);
      sum_px += point.y_px;
    }
    // Of feet the nearer is lower, while a head has one height.
    const double y_px = bottom_px ? lowest_px : sum_px / static_cast<double>(points.size());
    out.push_back({y_px, level.height + (from_33 ? level.of_33 : 0), level.sigma});
    const bool on_edge = std::abs(y_px - bottom_px.value_or(0)) < on_the_edge_px;
    if (!on_edge && (!bottom_px || points.size() == 2)) break;
  }
  return out;
}

/// The least of several margins.
struct Nearest {
  std::optional<Fact> fact;
  void add(const Fact& margin) {
    if (!fact || margin.value < fact->value) fact = margin;
  }
};

}  // namespace

Places usual_places(const pose::Track& track, std::span<const std::size_t> frames) {
  Places out;
  for (std::size_t i = 0; i < landmark_count; ++i) {
    std::vector<double> x, y;
    for (const std::size_t f : frames) {
      const auto& person = track.frames[f].person;
      if (!person) continue;
      const auto& point = person->image.values()[i];
      if (!point || point->confidence < next_to_nothing) continue;
      x.push_back(point->at.x_px);
      y.push_back(point->at.y_px);
    }
    if (x.empty() || 3 * x.size() < frames.size()) continue;
    out.values()[i] = intake::ImagePoint{median(std::move(x)), median(std::move(y))};
  }
  return out;
}

Places places_in(const pose::Track& track, std::size_t frame) {
  return usual_places(track, std::array{frame});
}

std::optional<InPicture> InPicture::of(const intake::Film& film, const Places& at_address) {
  if (!film.image || !(film.image->height_px > 0)) return std::nullopt;
  const bool from_33 = film.estimator == intake::Estimator::points_33;
  const auto feet = outer_levels(at_address, from_below, from_33, film.image->height_px);
  const auto head = outer_levels(at_address, from_above, from_33, std::nullopt);
  if (feet.empty() || head.empty()) return std::nullopt;
  const auto &low = feet.back(), &high = head.back();
  const double share = high.height - low.height;
  const double height_px = (low.y_px - high.y_px) / share;
  if (!(height_px > 1)) return std::nullopt;
  return InPicture(*film.image, from_33, height_px, std::hypot(low.sigma, high.sigma) / share);
}

Fact InPicture::height_share() const {
  const double share = height_px_ / image_.height_px;
  return {share, share * relative_u_};
}

Fact InPicture::margin(double distance_px, double reach, double sigma) const {
  const double distance = distance_px / height_px_;
  return {distance - reach, std::hypot(sigma, distance * relative_u_)};
}

std::optional<Fact> InPicture::feet(const Places& places) const {
  const auto levels = outer_levels(places, from_below, from_33_, image_.height_px);
  if (levels.empty()) return std::nullopt;
  Nearest nearest;
  for (const auto& level : levels)
    nearest.add(margin(image_.height_px - level.y_px, level.height, level.sigma));
  for (const Joint joint : {Joint::big_toe, Joint::heel, Joint::ankle})
    for (const auto& point : points_of(places, joint))
      nearest.add(
          margin(std::min(point.x_px, image_.width_px - point.x_px), beside_foot, beside_sigma));
  return nearest.fact;
}

std::optional<Fact> InPicture::head(const Places& places) const {
  const auto levels = outer_levels(places, from_above, from_33_, std::nullopt);
  if (levels.empty()) return std::nullopt;
  Nearest nearest;
  for (const auto& level : levels) nearest.add(margin(level.y_px, 1 - level.height, level.sigma));
  for (const Joint joint : {Joint::ear, Joint::nose})
    for (const auto& point : points_of(places, joint))
      nearest.add(
          margin(std::min(point.x_px, image_.width_px - point.x_px), beside_head, beside_sigma));
  return nearest.fact;
}

std::optional<Fact> InPicture::hand(const Places& places, Side side) const {
  const auto& wrist = places[{side, Joint::wrist}];
  if (!wrist) return std::nullopt;
  return margin(std::min({wrist->x_px, image_.width_px - wrist->x_px, wrist->y_px,
                          image_.height_px - wrist->y_px}),
                beyond_wrist, beside_sigma);
}

}  // namespace rangecheck::motion
