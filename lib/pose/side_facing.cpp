// SPDX-License-Identifier: MIT
#include "pose/side_facing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <initializer_list>

namespace rangecheck::pose {
namespace {

/// Toes this far below the heels in the picture are below them and not level: an estimator's error.
/// A camera 1 m up at 3.5 m sees them 22 mm lower.
constexpr double least_toes_below_m = 0.008;
/// Hands that go so far aside about impact have gone to that side; and so far that it can't be
/// anything else.
constexpr double clear_way_m = 0.1, certain_way_m = 0.3;
/// Shoulders and hands together beside the hips of one who bends over the ball: 0.7 m to the side
/// of the ball in a side view, within 0.15 m of nothing from the front.
constexpr double certain_bend_m = 0.3;

/// How far the toes are below the heels in the picture: positive when the golfer faces a camera,
/// which looks down on feet. Asked of the whole film, because a heel that lifts after the swing
/// turns the answer round. Nothing without feet.
std::optional<double> toes_below_heels_m(const Pairs& pairs) {
  std::vector<double> below;
  for (const auto& frame : pairs.frames) {
    if (!frame) continue;
    constexpr auto toe = index_of(Pair::toes), heel = index_of(Pair::heels);
    double sum_m = 0;
    int feet = 0;
    for (const auto* side : {&frame->lead, &frame->trail}) {
      if (!(*side)[toe] || !(*side)[heel]) continue;
      sum_m += (*side)[toe]->y_m - (*side)[heel]->y_m;
      ++feet;
    }
    if (feet > 0) below.push_back(sum_m / feet);
  }
  if (below.empty()) return std::nullopt;
  return median(std::move(below));
}

/// Median of lead minus trail along the picture.
double median_aside_m(const Pairs& pairs, std::initializer_list<Pair> which) {
  std::vector<double> aside;
  for (const auto& frame : pairs.frames) {
    if (!frame) continue;
    for (const Pair pair : which) {
      if (const auto apart = frame->apart(index_of(pair))) aside.push_back(apart->x_m);
    }
  }
  return aside.empty() ? 0 : median(std::move(aside));
}

/// How far the hands go to the right of the picture about a frame, if they go aside at all.
std::optional<double> way_about_m(const Pairs& pairs, std::size_t frame) {
  const std::size_t reach = std::max<std::size_t>(1, pairs.frames.size() / 60);
  std::optional<Flat> first, last;
  for (std::size_t f = frame - std::min(reach, frame);
       f <= frame + reach && f < pairs.frames.size(); ++f) {
    if (!pairs.frames[f] || !pairs.frames[f]->hands) continue;
    if (!first) first = pairs.frames[f]->hands;
    last = pairs.frames[f]->hands;
  }
  if (!first) return std::nullopt;
  const Flat way = *last - *first;
  if (std::abs(way.x_m) < std::abs(way.y_m)) return std::nullopt;
  return way.x_m;
}

/// How far the hands go to the right of the picture through the ball: about the frame in which
/// they are fastest, or from one side of the body to the other. Nothing without a clear swing.
std::optional<double> through_swing_m(const Pairs& pairs, const Phases& phases) {
  const auto aside_m = [&](const std::vector<std::size_t>& frames) -> std::optional<double> {
    std::vector<double> each;
    for (const std::size_t f : frames) {
      if (!pairs.frames[f] || !pairs.frames[f]->hands || !pairs.frames[f]->hips) continue;
      each.push_back(pairs.frames[f]->hands->x_m - pairs.frames[f]->hips->x_m);
    }
    if (each.empty()) return std::nullopt;
    return median(std::move(each));
  };
  std::optional<double> way_m;
  if (const auto back = aside_m(phases.top), through = aside_m(phases.through); back && through) {
    way_m = *through - *back;
  } else if (phases.fastest) {
    way_m = way_about_m(pairs, *phases.fastest);
  }
  if (way_m && std::abs(*way_m) < clear_way_m) return std::nullopt;
  return way_m;
}

/// Shoulders and hands to the right of the hips at address, added up.
std::optional<double> bent_m(const Pairs& pairs, const Phases& phases) {
  std::vector<double> each;
  for (const std::size_t f : phases.address) {
    const auto& frame = pairs.frames[f];
    if (!frame || !frame->shoulders || !frame->hands || !frame->hips) continue;
    each.push_back(frame->shoulders->x_m + frame->hands->x_m - 2 * frame->hips->x_m);
  }
  if (each.empty()) return std::nullopt;
  return median(std::move(each));
}

/// Whether the film shows a swing of the other hand.
bool is_other_hand(const Pairs& pairs, const Phases& phases, intake::View view) {
  if (view == intake::View::down_the_line) {
    const auto bend_m = bent_m(pairs, phases);
    return bend_m && *bend_m < -certain_bend_m;
  }
  const auto toes_m = toes_below_heels_m(pairs);
  const auto way_m = through_swing_m(pairs, phases);
  return toes_m && *toes_m > least_toes_below_m && way_m && *way_m < -certain_way_m;
}

}  // namespace

Facing facing_of(const Pairs& pairs, const Phases& phases) {
  const auto toes_m = toes_below_heels_m(pairs);
  if (toes_m && std::abs(*toes_m) > least_toes_below_m)
    return *toes_m < 0 ? Facing::back : Facing::front;
  if (const auto way_m = through_swing_m(pairs, phases))
    return *way_m < 0 ? Facing::back : Facing::front;
  const bool back = median_aside_m(pairs, {Pair::hips, Pair::knees, Pair::ankles}) < 0 &&
                    median_aside_m(pairs, {Pair::face, Pair::shoulders}) < 0;
  return back ? Facing::named_back : Facing::named_front;
}

std::optional<Error> other_hand(const Pairs& pairs, const Phases& phases, intake::View view) {
  if (!is_other_hand(pairs, phases, view)) return std::nullopt;
  Error error;
  error.fault = Fault::disagreement;
  error.what = fmt::format("the {} film shows a swing of the other hand", intake::name_of(view));
  error.remedy =
      view == intake::View::face_on
          ? "check handedness in the roster, or switch off mirroring in the camera"
          : "check handedness in the roster, switch off mirroring in the camera, or film "
            "from behind the trail side, looking at the target";
  return error;
}

}  // namespace rangecheck::pose
