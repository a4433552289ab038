// SPDX-License-Identifier: MIT
#include "pose/side_phases.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <utility>

namespace rangecheck::pose {
namespace {

/// Hands that far above the middle of the hips: about the breast bone, where every golfer has
/// turned. At address they hang 0.1 m below.
constexpr double raised_m = 0.33;
constexpr double low_m = 0.08;
/// Hands that go up and down by less make no swing that turns the body.
constexpr double least_swing_m = 0.30;
/// Hands that have come down by this much have been at the top.
constexpr double came_down_m = 0.12;
/// Of two movements of low hands, one of this share of the other's speed may be the downswing.
constexpr double fast_enough = 0.5;
/// Hands stay so near to one place at address, a waggle included.
constexpr double at_rest_m = 0.07;

/// Middle of the hands in each frame, single wild frames smoothed away, and their height over the
/// middle of the hips.
struct Hands {
  std::vector<std::optional<Flat>> at;
  std::vector<std::optional<double>> up_m;
};

std::optional<Flat> hands_near(const Pairs& pairs, std::size_t frame) {
  std::vector<double> x, y;
  const std::size_t from = frame == 0 ? 0 : frame - 1;
  for (std::size_t f = from; f <= frame + 1 && f < pairs.frames.size(); ++f) {
    if (!pairs.frames[f] || !pairs.frames[f]->hands) continue;
    x.push_back(pairs.frames[f]->hands->x_m);
    y.push_back(pairs.frames[f]->hands->y_m);
  }
  if (x.empty()) return std::nullopt;
  return Flat{median(std::move(x)), median(std::move(y))};
}

Hands hands_of(const Pairs& pairs) {
  Hands out;
  for (std::size_t f = 0; f < pairs.frames.size(); ++f) {
    out.at.push_back(hands_near(pairs, f));
    out.up_m.emplace_back();
    if (out.at[f] && pairs.frames[f] && pairs.frames[f]->hips) {
      out.up_m[f] = pairs.frames[f]->hips->y_m - out.at[f]->y_m;
    }
  }
  return out;
}

/// From near the least to near the most: single frames do not count.
double range_m(const Hands& hands) {
  std::vector<double> up;
  for (const auto& each : hands.up_m)
    if (each) up.push_back(*each);
  if (up.empty()) return 0;
  std::sort(up.begin(), up.end());
  const std::size_t aside = std::min<std::size_t>(up.size() / 20, 3);
  return up[up.size() - 1 - aside] - up[aside];
}

bool is_raised(const Hands& hands, std::size_t frame) {
  return hands.up_m[frame] && *hands.up_m[frame] > raised_m;
}

/// The frame next to `fastest` in a direction in which the hands are raised, or nothing when they
/// come down again before they are.
std::optional<std::size_t> raised_from(const Hands& hands, std::size_t fastest, int step) {
  double lowest_m = 1, highest_m = 1;  // since the lowest
  for (std::size_t f = fastest; f < hands.at.size(); f += static_cast<std::size_t>(step)) {
    if (is_raised(hands, f)) return f;
    if (!hands.up_m[f]) continue;
    highest_m = std::max(highest_m, *hands.up_m[f]);
    if (*hands.up_m[f] < lowest_m) lowest_m = highest_m = *hands.up_m[f];
    if (*hands.up_m[f] < highest_m - came_down_m) return std::nullopt;
  }
  return std::nullopt;
}

/// The stretch of raised hands next to `fastest` in a direction, in order.
std::vector<std::size_t> raised_stretch(const Hands& hands, std::size_t fastest, int step) {
  std::vector<std::size_t> out;
  const auto begin = raised_from(hands, fastest, step);
  for (std::size_t f = begin.value_or(hands.at.size()); f < hands.at.size();
       f += static_cast<std::size_t>(step)) {
    if (!hands.up_m[f]) continue;
    if (!is_raised(hands, f)) break;
    out.push_back(f);
  }
  std::sort(out.begin(), out.end());
  return out;
}

/// How far the hands go about each frame in which they are not raised, over about a hundredth of
/// the film each way; fastest first.
std::vector<std::pair<double, std::size_t>> low_speeds(const Hands& hands) {
  const std::size_t reach = std::max<std::size_t>(1, hands.at.size() / 100);
  std::vector<std::pair<double, std::size_t>> out;
  for (std::size_t f = reach; f + reach < hands.at.size(); ++f) {
    const auto &a = hands.at[f - reach], &b = hands.at[f + reach];
    if (!a || !b || !hands.up_m[f] || is_raised(hands, f)) continue;
    out.emplace_back((*b - *a).squared(), f);
  }
  std::sort(out.begin(), out.end(), std::greater<>());
  return out;
}

/// The frame about impact: of those in which the hands are low and fast, the fastest that they have
/// come down to from the top and go up from; else come down to; in a short swing the fastest.
std::optional<std::size_t> fastest_of(const Hands& hands) {
  const auto speeds = low_speeds(hands);
  if (speeds.empty()) return std::nullopt;
  const double least = fast_enough * fast_enough * speeds.front().first;
  std::optional<std::size_t> from_top;
  for (const auto& [squared, frame] : speeds) {
    if (squared < least) break;
    if (!raised_from(hands, frame, -1)) continue;
    if (raised_from(hands, frame, 1)) return frame;
    if (!from_top) from_top = frame;
  }
  return from_top ? from_top : speeds.front().second;
}

/// Frames before `end` with the hands low, in the place where they mostly are then.
std::vector<std::size_t> address_of(const Hands& hands, std::size_t end) {
  std::vector<double> x, y;
  for (std::size_t f = 0; f < end; ++f) {
    if (!hands.up_m[f] || *hands.up_m[f] > low_m) continue;
    x.push_back(hands.at[f]->x_m);
    y.push_back(hands.at[f]->y_m);
  }
  if (x.empty()) return {};
  const Flat rest{median(std::move(x)), median(std::move(y))};
  std::vector<std::size_t> out;
  for (std::size_t f = 0; f < end; ++f) {
    if (hands.at[f] && (*hands.at[f] - rest).squared() < at_rest_m * at_rest_m) out.push_back(f);
  }
  return out;
}

}  // namespace

Phases phases_of(const Pairs& pairs) {
  const Hands hands = hands_of(pairs);
  Phases out;
  if (range_m(hands) > least_swing_m) out.fastest = fastest_of(hands);
  if (!out.fastest) {
    out.address = address_of(hands, hands.at.size());
    return out;
  }
  out.top = raised_stretch(hands, *out.fastest, -1);
  out.through = raised_stretch(hands, *out.fastest, 1);
  out.address = address_of(hands, out.top.empty() ? *out.fastest : out.top.front());
  return out;
}

}  // namespace rangecheck::pose
