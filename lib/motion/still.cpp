// SPDX-License-Identifier: MIT
#include "motion/still.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

#include "intake/club_points.hpp"
#include "motion/filter.hpp"

namespace rangecheck::motion {
namespace {

/// The shortest stretch that counts as standing still.
constexpr double least_still_s = 0.15;
/// With fewer frames nothing can be said of stillness.
constexpr std::size_t least_still_frames = 3;
/// An estimator settles over its first frames: they are left out where enough others remain.
constexpr double settling_s = 0.1;
/// Spread of a landmark, over the golfer's height in the picture, that is jitter and not movement:
/// about 9 mm on a golfer of 1.75 m, twice the usual jitter of 3 to 6 mm.
constexpr double still_spread = 0.005;
/// A shift may be this much larger than a spread: medians of three frames at 6 mm of jitter differ
/// by more than 9 mm in one film in a few hundred.
constexpr double shift_over_spread = 1.5;
/// Hands or feet this far (over height) from where they were at rest are elsewhere.
constexpr double elsewhere = 0.10;
/// Hands this far (over height) from their place in a still stretch have begun to move: 17 mm,
/// three times the usual jitter.
constexpr double off_rest = 0.01;
constexpr std::array body{Joint::shoulder, Joint::hip, Joint::knee, Joint::ankle, Joint::wrist};

/// A standard deviation that a few wild frames can't move.
double robust_spread(const std::vector<double>& values) {
  const double centre = median(values);
  std::vector<double> away;
  for (double value : values) away.push_back(std::abs(value - centre));
  return deviation_over_mad * median(std::move(away));
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

/// From the median of the first third to that of the last, of three values or more where there are
/// five: a jump or a drift, of which a median absolute deviation sees little.
double shift(std::span<const double> values) {
  const std::size_t third = (values.size() + 2) / 3, half = (values.size() + 1) / 2;
  const std::size_t count = std::max(third, std::min<std::size_t>(3, half));
  const auto first = values.first(count), last = values.last(count);
  return median({last.begin(), last.end()}) - median({first.begin(), first.end()});
}

/// Median over the body's landmarks of their movement in these frames, over the golfer's height;
/// the hands count on their own, because they move first (the better one: in a view from the side
/// the estimator may lose the other).
double movement(const pose::Track& track, std::span<const std::size_t> frames, double height) {
  std::vector<double> of_body, of_hands;
  for (const Joint joint : body) {
    for (const Side side : {Side::lead, Side::trail}) {
      const LandmarkId id{side, joint};
      const auto x = coordinates(track, frames, id, false),
                 y = coordinates(track, frames, id, true);
      if (x.size() < 2) continue;
      const double each = std::max(std::hypot(robust_spread(x), robust_spread(y)),
                                   std::hypot(shift(x), shift(y)) / shift_over_spread) /
                          height;
      of_body.push_back(each);
      if (joint == Joint::wrist) of_hands.push_back(each);
    }
  }
  if (of_body.empty()) return 1;
  const double hands =
      of_hands.empty() ? 0 : *std::min_element(of_hands.begin(), of_hands.end()) / 2;
  return std::max(median(std::move(of_body)), hands);
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
    if (movement(track, window, height) > still_spread) continue;
    if (!out.empty() && begin <= out.back().end) {
      out.back().end = begin + length;
    } else {
      out.push_back({begin, begin + length});
    }
  }
  return out;
}

std::span<const std::size_t> part(const Frames& frames, Stretch stretch) {
  return std::span(frames).subspan(stretch.begin, stretch.end - stretch.begin);
}

std::optional<intake::ImagePoint> middle(const pose::Track& track,
                                         std::span<const std::size_t> frames, LandmarkId id) {
  auto x = coordinates(track, frames, id, false), y = coordinates(track, frames, id, true);
  if (x.empty()) return std::nullopt;
  return intake::ImagePoint{median(std::move(x)), median(std::move(y))};
}

/// How far a joint went from one set of frames to another; the lesser of its two sides, because one
/// may be hidden or step aside alone. 0 when it is not seen in both.
double travel(const pose::Track& track, Joint joint, std::span<const std::size_t> from,
              std::span<const std::size_t> to) {
  std::optional<double> least;
  for (const Side side : {Side::lead, Side::trail}) {
    const auto a = middle(track, from, {side, joint}), b = middle(track, to, {side, joint});
    if (!a || !b) continue;
    const double each = std::hypot(b->x_px - a->x_px, b->y_px - a->y_px);
    least = std::min(least.value_or(each), each);
  }
  return least.value_or(0);
}

/// Both hands nearer the shoulders than the hips: a top or a finish, no address.
bool hands_up(const pose::Track& track, std::span<const std::size_t> frames) {
  bool up = false;
  for (const Side side : {Side::lead, Side::trail}) {
    const auto hand = middle(track, frames, {side, Joint::wrist}),
               shoulder = middle(track, frames, {side, Joint::shoulder}),
               hip = middle(track, frames, {side, Joint::hip});
    if (!hand || !shoulder || !hip) continue;
    if (hand->y_px > (shoulder->y_px + hip->y_px) / 2) return false;
    up = true;
  }
  return up;
}

/// The last still stretch that begins before the swing, cut off where the swing begins; nothing
/// when the hands were elsewhere then: it was before a practice swing, or the golfer had not
/// settled.
std::optional<Stretch> stretch_before(const pose::Track& track, const Frames& frames,
                                      const std::vector<Stretch>& stretches, std::size_t start,
                                      double height) {
  const auto setting_off = static_cast<std::size_t>(
      std::upper_bound(frames.begin(), frames.end(), start) - frames.begin());
  std::optional<Stretch> chosen;
  for (const Stretch& next : stretches) {
    if (next.begin < setting_off && !hands_up(track, part(frames, next))) chosen = next;
  }
  if (!chosen) return std::nullopt;
  const Stretch then{setting_off - std::min<std::size_t>(setting_off, 2), setting_off};
  if (travel(track, Joint::wrist, part(frames, *chosen), part(frames, then)) > elsewhere * height)
    return std::nullopt;
  return chosen;
}

/// In a film without a swing the longest still stretch before a stroke.
std::optional<Stretch> longest_stretch(const pose::Track& track, const Frames& frames,
                                       const std::vector<Stretch>& stretches, double height) {
  const auto length = [](Stretch s) { return s.end - s.begin; };
  std::optional<Stretch> chosen;
  bool stroke_seen = false;
  for (const Stretch& next : stretches) {
    if (hands_up(track, part(frames, next))) continue;
    if (!chosen) {
      chosen = next;
      continue;
    }
    const auto from = part(frames, *chosen), to = part(frames, next);
    if (travel(track, Joint::wrist, from, to) > elsewhere * height) {
      // Hands that left while the feet stayed turn round in a waggle or rest in a finish. A golfer
      // whose feet left too had not yet come to the ball, or has played it.
      if (travel(track, Joint::ankle, from, to) <= elsewhere * height) {
        stroke_seen = true;
        continue;
      }
      if (stroke_seen) break;
    }
    // Hands that came back are still at address: the later stretch is nearer the swing.
    const bool travels_on = next.end < frames.size();
    if (travels_on || length(next) > length(*chosen)) chosen = next;
  }
  return chosen;
}

/// Without the frames at either end in which the hands are on their way, as far as `least` frames
/// remain: a window counts as still while fewer than half of its frames move.
Stretch trimmed(const pose::Track& track, const Frames& frames, Stretch stretch, std::size_t least,
                double height) {
  const auto rest = part(frames, stretch);
  const auto moves = [&](std::size_t i) {
    return travel(track, Joint::wrist, rest, part(frames, {i, i + 1})) > off_rest * height;
  };
  Stretch out = stretch;
  while (out.end - out.begin > least && moves(out.end - 1)) --out.end;
  while (out.end - out.begin > least && moves(out.begin)) ++out.begin;
  return out;
}

/// Lag-one correlation of jitter, pooled over coordinates: how much neighbouring frames repeat.
double repetition(const std::vector<std::vector<double>>& series) {
  double products = 0, squares = 0, frames = 0, used = 0;
  for (const auto& values : series) {
    if (values.size() < 4) continue;
    const double centre = median(values);
    for (std::size_t i = 0; i + 1 < values.size(); ++i) {
      products += (values[i] - centre) * (values[i + 1] - centre);
      squares += (values[i] - centre) * (values[i] - centre);
    }
    frames += static_cast<double>(values.size());
    ++used;
  }
  if (squares <= 0) return 0;
  // Short series read low, because they supply their own centre: by (0.5 + 2 ρ)/n, measured on
  // made-up series of 5 to 40 frames.
  const double n = frames / used;
  return std::clamp((products / squares + 0.5 / n) / (1 - 2 / n), 0.0, 0.9);
}

/// Of club and ball the frames with a point that is quite sure, as a person's mark is: such a mark
/// counts more than what a detector made of the frames around it.
std::vector<std::size_t> marked_frames(const pose::Track& track,
                                       std::span<const std::size_t> frames, LandmarkId id) {
  std::vector<std::size_t> marked;
  if (!intake::is_of_club_or_ball(id.joint)) return marked;
  for (const std::size_t f : frames) {
    const auto& point = person(track, f).image[id];
    if (point && point->confidence == 1) marked.push_back(f);
  }
  return marked;
}

/// The landmark over the window, without its jitter's effective sample size.
std::optional<StillPoint> averaged(const pose::Track& track, std::span<const std::size_t> frames,
                                   LandmarkId id) {
  const auto marked = marked_frames(track, frames, id);
  if (!marked.empty()) frames = marked;
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
  // A median absolute deviation of few values reads low: by (n − 0.8)/n, after C. Croux and
  // P. Rousseeuw, Time-efficient algorithms for two highly robust estimators of scale, 1992.
  const auto n = static_cast<double>(x.size());
  out.jitter_u_px = std::hypot(robust_spread(x), robust_spread(y)) / std::sqrt(2.0) * n / (n - 0.8);
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

Error no_address(const pose::Track& track, std::string_view why) {
  return {Fault::not_a_film,
          fmt::format("{} in the {} film", why, intake::name_of(track.view)),
          {},
          "start the film a second before the swing and hold the address"};
}

}  // namespace

Result<Still> still_address(const pose::Track& track, double frame_rate_hz,
                            const std::optional<SwingStart>& swing) {
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
  if (frames.size() < least_still_frames) return summarise(track, frames);

  // A few pictures, shorter than a still stretch of a film, are held against each other as a whole.
  const std::size_t length =
      std::min(std::max(least_still_frames, count(least_still_s)), frames.size());
  const double height = height_px(track, frames);
  const auto stretches = still_stretches(track, frames, length, height);
  if (stretches.empty()) {
    return no_address(track, fmt::format("the golfer is never still for {:.2f} s", least_still_s));
  }
  if (swing && !swing->frame) return no_address(track, "the golfer is still only after the swing");
  const auto chosen = swing ? stretch_before(track, frames, stretches, *swing->frame, height)
                            : longest_stretch(track, frames, stretches, height);
  if (!chosen) return no_address(track, "the golfer is never still at address");
  return summarise(track, part(frames, trimmed(track, frames, *chosen, length, height)));
}

}  // namespace rangecheck::motion
