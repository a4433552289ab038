// SPDX-License-Identifier: MIT
#include "generator/swing_film.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace rangecheck::samples {
namespace {

constexpr double waggle_s = 1.2;   // the whole of it
constexpr double settle_s = 0.25;  // sway dies down and starts again
constexpr double slower = 2;       // a practice swing
constexpr double back_s = 1.8;     // from the practice finish to the new address
constexpr double looking_s = 0.5;  // at the practice finish

/// Between two postures.
Dofs between(const Dofs& from, const Dofs& to, double share) {
  Dofs dofs;
  for (std::size_t i = 0; i < dof_count; ++i) {
    const auto dof = static_cast<Dof>(i);
    dofs[dof] = from[dof] + share * (to[dof] - from[dof]);
  }
  return dofs;
}

}  // namespace

SwingScene::SwingScene(Random& random, SwingMotion motion, const SwingOptions& options)
    : motion_(std::move(motion)),
      still_s_(random.uniform(0.6, 1.5)),
      held_s_(random.uniform(0.4, 1.0)) {
  for (const auto& [dof, by] : {std::pair{Dof::pelvis_x, 0.0015},
                                {Dof::pelvis_z, 0.0015},
                                {Dof::forward_bend, 0.12},
                                {Dof::side_bend, 0.10},
                                {Dof::head_turn, 0.5}}) {
    const double sd = random.normal(0, by), period_s = random.uniform(1.2, 4);
    sways_.push_back({dof, sd, period_s, random.uniform(0, 2 * std::numbers::pi)});
  }
  start_s_ = -still_s_;
  if (options.waggle) {
    waggle_deg_ = random.uniform(14, 32);
    start_s_ -= waggle_s + random.uniform(0.1, 0.5);
  }
  if (options.practice_swing) {
    has_practice_ = true;
    straight_back_ = can_go_straight_back();
    practice_starts_s_ = start_s_ - back_s - looking_s - slower * motion_.timing().end_s();
    practice_place_ = {random.uniform(-0.04, 0.04), 0, random.uniform(-0.14, -0.09)};
    start_s_ = practice_starts_s_ - random.uniform(0.4, 0.9);
  }
  end_s_ = motion_.timing().end_s() + held_s_;
}

/// From the finish of the practice swing back to address: straight, or the way he came where arms
/// would not reach on the straight way.
Dofs SwingScene::going_back(double share) const {
  const double end_s = motion_.timing().end_s();
  if (!straight_back_) return motion_.dofs((1 - share) * end_s);
  return between(motion_.dofs(end_s), motion_.dofs(0), share);
}

bool SwingScene::can_go_straight_back() const {
  constexpr int steps = 50;
  for (int i = 0; i <= steps; ++i) {
    if (!motion_.figure().pose(going_back(double(i) / steps))) return false;
  }
  return true;
}

Points SwingScene::points(double time_s) const {
  Dofs dofs = motion_.dofs(time_s);
  double away = 0;
  if (has_practice_ && time_s < -still_s_) {
    const double swung_s = practice_starts_s_ + slower * motion_.timing().end_s() + looking_s;
    const double back = smooth_step((time_s - swung_s) / back_s);
    dofs = back > 0 ? going_back(back) : motion_.dofs((time_s - practice_starts_s_) / slower);
    away = 1 - back;
  }
  waggle(dofs, time_s);
  sway(dofs, time_s);
  auto points = motion_.figure().pose(dofs).value();
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const auto id = landmark_at(i);
    if (points[id] && id != centre(Joint::ball)) *points[id] += away * practice_place_;
  }
  return points;
}

double SwingScene::phase(double time_s) const {
  const SwingTiming& timing = motion_.timing();
  if (!has_practice_ || time_s >= -still_s_) return timing.phase(time_s);
  const double swung_s = practice_starts_s_ + slower * timing.end_s() + looking_s;
  return timing.phase((time_s - practice_starts_s_) / slower) *
         (1 - smooth_step((time_s - swung_s) / back_s));
}

/// A few millimetres while standing; none while swinging.
void SwingScene::sway(Dofs& dofs, double time_s) const {
  const double end_s = motion_.timing().end_s();
  const double standing =
      1 - smooth_step(1 + time_s / settle_s) + smooth_step((time_s - end_s) / (2 * settle_s));
  for (const auto& sway : sways_) {
    const double turns = 2 * std::numbers::pi * time_s / sway.period_s + sway.phase;
    const double size = sway.dof <= Dof::pelvis_z ? motion_.figure().golfer().body.stature_m : 1;
    dofs[sway.dof] += standing * sway.by * size * std::sin(turns);
  }
}

/// The wrists lift the club back twice and put it down again.
void SwingScene::waggle(Dofs& dofs, double time_s) const {
  constexpr double moves = 4;
  const double part = (time_s + still_s_) / waggle_s * moves + moves;
  const double up = smooth_step(part) - smooth_step(part - 1) +
                    0.7 * (smooth_step(part - 2) - smooth_step(part - 3));
  dofs[Dof::club_back] += up * waggle_deg_;
  dofs[Dof::arms_up] += 0.06 * up * waggle_deg_;
  dofs[Dof::club_roll] += 0.8 * up * waggle_deg_;
}

std::vector<Picture> take_pictures(Random& random, const SwingOptions& options, double from_s,
                                   double to_s) {
  std::vector<Picture> pictures;
  const double step_s = 1 / options.rate_hz;
  for (std::size_t number = 0;; ++number) {
    const double even_s = from_s + double(number) * step_s;
    if (even_s > to_s) break;
    const double off_s =
        std::clamp(random.normal(0, options.uneven_s), -0.4 * step_s, 0.4 * step_s);
    const bool dropped = random.chance(options.dropped_chance);
    const bool repeated = random.chance(options.repeated_chance);
    if (number > 0 && dropped) continue;
    const double time_s = number == 0 ? even_s : even_s + off_s;
    pictures.push_back({number, time_s, repeated && number > 0});
  }
  return pictures;
}

}  // namespace rangecheck::samples
