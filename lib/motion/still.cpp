// SPDX-License-Identifier: MIT
#include "motion/still.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

namespace rangecheck::motion {
namespace {

/// The shortest stretch that counts as standing still.
constexpr double least_still_s = 0.15;
/// An estimator settles over its first frames: they are left out where enough others remain.
constexpr double settling_s = 0.1;
/// Spread of a landmark, over the golfer's height in the picture, that is jitter and not movement:
/// about 9 mm on a golfer of 1.75 m, twice the usual jitter of 3 to 6 mm.
constexpr double still_spread = 0.005;
/// Hands this far (over height) from where they were at rest have left address.
constexpr double left_address = 0.10;

constexpr std::array body{Joint::shoulder, Joint::hip, Joint::knee, Joint::ankle, Joint::wrist};

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  if (values.size() % 2 == 1) return *middle;
  return (*middle + *std::max_element(values.begin(), middle)) / 2;
}

/// 1.4826 × median absolute deviation: a standard deviation that a few wild frames can't move.
double robust_spread(const std::vector<double>& values) {
  const double centre = median(values);
  std::vector<double> away;
  for (double value : values) away.push_back(std::abs(value - centre));
  return 1.4826 * median(std::move(away));
}

/// Frames of the track in which the golfer is there, by index into the track.
using Frames = std::vector<std::size_t>;

const intake::Person& person(const pose::Track& track, std::size_t frame) {
  return *track.frames[frame].person;
}

std::vector<double> coordinates(const pose::Track& track, std::span<const std::size_t> frames,
                                LandmarkId id, bool vertical) {
  std::vector<double> out;
  for (const std::size_t f : frames) {
    const auto& point = person(track, f).image[id];
    if (point) out.push_back(vertical ? point->at.y_px : point->at.x_px);
  }
  return out;
}

double height_px(const pose::Track& track, std::span<const std::size_t> frames) {
  std::vector<double> heights;
  for (const std::size_t f : frames) {
    double low = 1e9, high = -1e9;
    for (const auto& point : person(track, f).image.values()) {
      if (!point) continue;
      low = std::min(low, point->at.y_px);
      high = std::max(high, point->at.y_px);
    }
    heights.push_back(high - low);
  }
  return std::max(1.0, median(std::move(heights)));
}

/// Median over the body's landmarks of their spread in these frames, over the golfer's height; the
/// hands count in full, because they move first.
double spread(const pose::Track& track, std::span<const std::size_t> frames, double height) {
  std::vector<double> body_spread;
  double hands = 0;
  for (const Joint joint : body) {
    for (const Side side : {Side::lead, Side::trail}) {
      const LandmarkId id{side, joint};
      const auto x = coordinates(track, frames, id, false),
                 y = coordinates(track, frames, id, true);
      if (x.size() < 2) continue;
      const double each = std::hypot(robust_spread(x), robust_spread(y)) / height;
      body_spread.push_back(each);
      if (joint == Joint::wrist) hands = hands == 0 ? each : std::min(hands, each);
    }
  }
  if (body_spread.empty()) return 1;
  return std::max(median(std::move(body_spread)), hands / 2);
}

/// First and one past the last of a stretch of `frames`.
struct Stretch {
  std::size_t begin = 0, end = 0;
};

/// Runs of overlapping windows of `length` frames that are still.
std::vector<Stretch> still_stretches(const pose::Track& track, const Frames& frames,
                                     std::size_t length, double height) {
  std::vector<Stretch> out;
  for (std::size_t begin = 0; begin + length <= frames.size(); ++begin) {
    const auto window = std::span(frames).subspan(begin, length);
    if (spread(track, window, height) > still_spread) continue;
    if (!out.empty() && begin <= out.back().end) {
      out.back().end = begin + length;
    } else {
      out.push_back({begin, begin + length});
    }
  }
  return out;
}

double hands_at(const pose::Track& track, std::span<const std::size_t> frames, bool vertical) {
  auto both = coordinates(track, frames, lead(Joint::wrist), vertical);
  const auto other = coordinates(track, frames, trail(Joint::wrist), vertical);
  both.insert(both.end(), other.begin(), other.end());
  return both.empty() ? 0 : median(std::move(both));
}

/// The still stretch after which the hands first travel: a stretch later in the film whose hands
/// are elsewhere belongs to the finish. Without any travel, the longest.
Stretch address_stretch(const pose::Track& track, const Frames& frames,
                        const std::vector<Stretch>& stretches, double height) {
  const auto part = [&](Stretch s) { return std::span(frames).subspan(s.begin, s.end - s.begin); };
  const auto length = [](Stretch s) { return s.end - s.begin; };
  Stretch chosen = stretches.front();
  for (const Stretch& next : stretches) {
    const double away =
        std::hypot(hands_at(track, part(next), false) - hands_at(track, part(chosen), false),
                   hands_at(track, part(next), true) - hands_at(track, part(chosen), true));
    if (away > left_address * height) break;
    // Hands that came back (a waggle) are still at address: the later stretch is nearer the swing.
    const bool travels_on = next.end < frames.size();
    if (travels_on || length(next) > length(chosen)) chosen = next;
  }
  return chosen;
}

/// Lag-one correlation of jitter, pooled over coordinates: how much neighbouring frames repeat.
double repetition(const std::vector<std::vector<double>>& series) {
  double products = 0, squares = 0;
  for (const auto& values : series) {
    if (values.size() < 4) continue;
    const double centre = median(values);
    for (std::size_t i = 0; i + 1 < values.size(); ++i) {
      products += (values[i] - centre) * (values[i + 1] - centre);
      squares += (values[i] - centre) * (values[i] - centre);
    }
  }
  return squares > 0 ? std::clamp(products / squares, 0.0, 0.9) : 0.0;
}

/// The landmark over the window, without its jitter's effective sample size.
std::optional<StillPoint> averaged(const pose::Track& track, std::span<const std::size_t> frames,
                                   LandmarkId id) {
  const auto x = coordinates(track, frames, id, false), y = coordinates(track, frames, id, true);
  // Seen in fewer than a third of the frames, a point is a guess of the estimator.
  if (x.empty() || 3 * x.size() < frames.size()) return std::nullopt;
  std::vector<double> confidence;
  for (const std::size_t f : frames) {
    if (const auto& point = person(track, f).image[id]) confidence.push_back(point->confidence);
  }
  StillPoint out;
  out.at = {median(x), median(y)};
  out.confidence = median(std::move(confidence));
  out.frames = x.size();
  out.jitter_u_px = std::hypot(robust_spread(x), robust_spread(y)) / std::sqrt(2.0);
  return out;
}

std::optional<StillSpatialPoint> averaged_in_space(const pose::Track& track,
                                                   std::span<const std::size_t> frames,
                                                   LandmarkId id) {
  std::vector<double> x, y, z, confidence;
  for (const std::size_t f : frames) {
    const auto& point = person(track, f).space[id];
    if (!point) continue;
    x.push_back(point->x_m);
    y.push_back(point->y_m);
    z.push_back(point->z_m);
    confidence.push_back(point->confidence);
  }
  if (x.empty() || 3 * x.size() < frames.size()) return std::nullopt;
  return StillSpatialPoint{median(std::move(x)), median(std::move(y)), median(std::move(z)),
                           median(std::move(confidence))};
}

Still summarise(const pose::Track& track, std::span<const std::size_t> frames) {
  Still out;
  out.first_frame = frames.front();
  out.last_frame = frames.back();
  std::vector<std::vector<double>> series;
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const LandmarkId id = landmark_at(i);
    out.points[id] = averaged(track, frames, id);
    out.spatial[id] = averaged_in_space(track, frames, id);
    if (!out.points[id]) continue;
    series.push_back(coordinates(track, frames, id, false));
    series.push_back(coordinates(track, frames, id, true));
  }
  const double rho = repetition(series);
  for (auto& point : out.points.values()) {
    if (!point) continue;
    // A median of n independent normal values varies by √(π/2)/√n; neighbours that repeat each
    // other count for less: n (1 − ρ)/(1 + ρ).
    const double effective =
        std::max(1.0, static_cast<double>(point->frames) * (1 - rho) / (1 + rho));
    point->jitter_u_px *= 1.2533 / std::sqrt(effective);
  }
  return out;
}

}  // namespace

Result<Still> still_address(const pose::Track& track, double frame_rate_hz) {
  Frames frames;
  for (std::size_t f = 0; f < track.frames.size(); ++f) {
    if (track.frames[f].person) frames.push_back(f);
  }
  if (frames.empty()) {
    return Error{Fault::not_a_film, "the golfer is in no frame", {}, "film the whole body"};
  }
  const auto count = [&](double seconds) {
    return static_cast<std::size_t>(std::lround(seconds * frame_rate_hz));
  };
  const std::size_t settling = std::max<std::size_t>(2, count(settling_s));
  if (frames.size() >= 3 * settling) {
    frames.erase(frames.begin(), frames.begin() + static_cast<std::ptrdiff_t>(settling));
  }
  const std::size_t length = std::max<std::size_t>(3, count(least_still_s));
  if (frames.size() < length) return summarise(track, frames);

  const double height = height_px(track, frames);
  const auto stretches = still_stretches(track, frames, length, height);
  if (stretches.empty()) {
    return Error{Fault::not_a_film,
                 fmt::format("the golfer is never still for {:.2f} s in the {} film", least_still_s,
                             intake::name_of(track.view)),
                 {},
                 "start the film a second before the swing and hold the address"};
  }
  const Stretch chosen = address_stretch(track, frames, stretches, height);
  return summarise(track, std::span(frames).subspan(chosen.begin, chosen.end - chosen.begin));
}

}  // namespace rangecheck::motion
