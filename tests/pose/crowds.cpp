// SPDX-License-Identifier: MIT
#include "pose/crowds.hpp"

#include <algorithm>
#include <array>

#include "drawn_film.hpp"

namespace rangecheck::test {
namespace {

using samples::Other;

/// A joint farther than this from the golfer's own is not his, over his height in the picture:
/// 9 cm on a body of 1.75 m.
constexpr double foreign = 0.05;
constexpr std::size_t most_foreign = 2;

double height_px(const samples::DetectedFrame& frame) {
  double low = 1e9, high = -1e9;
  for (const auto& point : frame.image.values()) {
    if (!point) continue;
    low = std::min(low, point->at_px.y());
    high = std::max(high, point->at_px.y());
  }
  return high - low;
}

bool near(const std::optional<samples::Detected>& own, const intake::ImagePoint& at, double px) {
  return own && std::hypot(own->at_px.x() - at.x_px, own->at_px.y() - at.y_px) < px;
}

/// Sides may have been put right, so either side's point is the golfer's own.
bool is_own(const samples::DetectedFrame& own, LandmarkId id, const intake::ImagePoint& at,
            double px) {
  return near(own.image[id], at, px) || near(own.image[mirrored(id)], at, px);
}

bool given(const std::vector<samples::Seen>& people, const samples::DetectedFrame& own) {
  const double px = foreign * height_px(own);
  return std::any_of(people.begin(), people.end(), [&](const samples::Seen& seen) {
    std::size_t own_points = 0, all = 0;
    for (std::size_t i = 0; i < landmark_count; ++i) {
      const auto& point = seen.points.image.values()[i];
      if (!point) continue;
      ++all;
      own_points +=
          near(own.image.values()[i], intake::ImagePoint{point->at_px.x(), point->at_px.y()}, px);
    }
    return 4 * own_points >= 3 * all;
  });
}

}  // namespace

std::span<const CrowdKind> crowd_kinds() {
  static const std::array kinds{
      CrowdKind{"alone", {}},
      CrowdKind{"passer-by", {Other::passer}},
      CrowdKind{"two passers-by", {Other::passer, Other::passer}},
      CrowdKind{"coach", {Other::coach}},
      CrowdKind{"golfer farther off", {Other::golfer}},
      CrowdKind{"reflection", {Other::reflection}},
      CrowdKind{"coach and passer-by", {Other::coach, Other::passer}},
      CrowdKind{"everybody", {Other::coach, Other::passer, Other::golfer, Other::reflection}},
      CrowdKind{"address, passer-by", {Other::passer}, true},
      CrowdKind{"address, coach", {Other::coach}, true},
      CrowdKind{"address, reflection", {Other::reflection}, true},
      CrowdKind{"two golfers alike", {Other::twin}, false, true},
  };
  return kinds;
}

samples::CrowdFilm crowd_of(const CrowdKind& kind, std::uint64_t seed) {
  auto random = samples::Random::for_part(seed, 60);
  const auto one_of = [&random](const auto& list) {
    return list[static_cast<std::size_t>(random.uniform(0, double(std::size(list))))];
  };
  using samples::Skeleton, samples::SwingKind, samples::View;
  samples::CrowdOptions options;
  options.others = kind.others;
  options.address_only = kind.address_only;
  options.swing.base.views = {one_of(std::array{View::face_on, View::down_the_line})};
  options.swing.base.detector.skeleton = one_of(
      std::array{Skeleton::coco_17, Skeleton::points_25, Skeleton::points_33, Skeleton::all});
  options.swing.rate_hz = one_of(std::array{30.0, 30.0, 60.0, 120.0});
  options.swing.kind = one_of(std::array{SwingKind::full, SwingKind::full, SwingKind::pitch,
                                         SwingKind::chip, SwingKind::putt});
  options.swing.base.setup = options.swing.kind == SwingKind::putt   ? samples::Setup::putter
                             : options.swing.kind == SwingKind::chip ? samples::Setup::chip
                                                                     : samples::Setup::iron;
  options.swing.practice_swing = random.chance(0.15);
  options.swing.dropped_chance = random.chance(0.3) ? 0.03 : 0;
  return samples::draw_crowd(seed, options);
}

intake::FilmedView film_of(const samples::CrowdFilm& crowd) {
  intake::FilmedView out = film_of(crowd.golfer);
  for (std::size_t f = 0; f < crowd.people.size(); ++f) {
    out.film.frames[f].people.clear();
    for (const auto& seen : crowd.people[f]) {
      out.film.frames[f].people.push_back(person_of(seen.points));
      out.film.frames[f].people.back().track = seen.track;
    }
  }
  return out;
}

CrowdOutcome judge(const samples::CrowdFilm& crowd, const Result<pose::Track>& track) {
  CrowdOutcome out;
  out.frames = crowd.people.size();
  if (!track) {
    out.refused = to_string(track.error());
    return out;
  }
  out.flagged = track->notes.size();
  for (std::size_t f = 0; f < out.frames; ++f) {
    const auto& own = crowd.golfer.frames[f];
    const auto& person = track->frames[f].person;
    if (!person) {
      out.left_out += given(crowd.people[f], own);
      continue;
    }
    std::size_t not_his = 0;
    for (std::size_t i = 0; i < landmark_count; ++i) {
      const LandmarkId id = landmark_at(i);
      const auto& point = person->image[id];
      out.points += own.image.has(id);
      if (!point) {
        out.points_dropped += own.image.has(id);
        continue;
      }
      not_his += !is_own(own, id, point->at, foreign * height_px(own));
    }
    out.wrong += not_his > most_foreign;
  }
  return out;
}

}  // namespace rangecheck::test
