// SPDX-License-Identifier: MIT
#include "generator/swing_motion.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "generator/linkage.hpp"

namespace rangecheck::samples {
namespace {

using Eigen::Vector3d;

bool is_length(Dof dof) { return dof <= Dof::pelvis_z; }

/// From address, what a chest turned by `turn_deg` against square has turned.
double measured_from_address(Dof dof, const Golfer& golfer, const Dofs& address) {
  return dof == Dof::chest_turn ? golfer.address.shoulder_turn_deg : address[dof];
}

using Laid = SwingMotion::Laid;

bool is_used(const Key& key, SwingKind kind) { return kind == SwingKind::full || !key.full_only; }

/// The keys that follow from nothing but the golfer's numbers.
std::vector<Laid> laid_keys(const Figure& figure, SwingKind kind, const SwingNumbers& numbers) {
  const Golfer& golfer = figure.golfer();
  const Extent extent = extent_of(kind);
  std::vector<Laid> laid;
  const auto keys = swing_keys();
  for (std::size_t i = 0; i < keys.size(); ++i) {
    const Key& key = keys[i];
    if (key.measured > Key::Measured::from_address) continue;  // follow from the others
    if (!is_used(key, kind)) continue;
    double change = key.mean + numbers.keys[i];
    if (is_length(key.dof)) change *= golfer.body.stature_m;
    if (key.measured == Key::Measured::absolutely) {
      change -= measured_from_address(key.dof, golfer, figure.address());
    }
    const double share = key.phase < 1.6  ? extent.back
                         : key.phase <= 2 ? extent.at_impact
                                          : extent.through;
    laid.push_back({key.dof, key.phase, figure.address()[key.dof] + share * change});
  }
  return laid;
}

/// Postures turn round one after the other: the pelvis first, then the chest.
double phase_of(const Laid& key, double order) {
  if (key.phase > 1.1 || key.phase < 0.9) return key.phase;
  if (key.dof == Dof::pelvis_turn) return key.phase - order;
  if (key.dof == Dof::chest_turn) return key.phase - order / 2;
  return key.phase;
}

/// Angle between the lead forearm and the shaft.
double lag_deg(const Figure& figure, const Dofs& dofs) {
  const auto points = figure.pose(dofs);
  if (!points) return 0;
  const Vector3d forearm =
      (*(*points)[lead(Joint::wrist)] - *(*points)[lead(Joint::elbow)]).normalized();
  return degrees(std::acos(std::clamp(forearm.dot(figure.shaft(dofs)), -1.0, 1.0)));
}

/// Where the club has swung to at the top.
double club_at_top(const Figure& figure, Dofs top, SwingKind kind, double lag,
                   double trail_elbow_deg) {
  constexpr double shortest = 150, longest = 292, usual = 262, usual_lag = 97;
  const double start = figure.address()[Dof::club_back];
  if (kind != SwingKind::full) {
    return start + extent_of(kind).club_back * (usual + 0.8 * (lag - usual_lag) - start);
  }
  const auto more_than_wished = [&](double back) {
    Dofs tried = top;
    tried[Dof::club_back] = back;
    return figure.hold_naturally(tried, trail_elbow_deg) ? lag_deg(figure, tried) - lag : 0;
  };
  return root(more_than_wished, shortest, longest).value_or(longest);
}

double value_at(const std::vector<Laid>& laid, Dof dof, double phase) {
  return std::find_if(laid.begin(), laid.end(),
                      [&](const Laid& key) { return key.dof == dof && key.phase == phase; })
      ->value;
}

std::size_t trail_elbow_key_at_top() {
  const auto keys = swing_keys();
  const auto found = std::find_if(keys.begin(), keys.end(), [](const Key& key) {
    return key.measured == Key::Measured::trail_elbow && key.phase == 1;
  });
  return static_cast<std::size_t>(found - keys.begin());
}

/// Wished flexion of the trail elbow at a key.
double trail_elbow_at(std::size_t key, const Figure& figure, SwingKind kind,
                      const SwingNumbers& numbers) {
  const Extent extent = extent_of(kind);
  const double start = figure.trail_elbow_at_address();
  const double share = swing_keys()[key].phase < 2 ? extent.back : extent.through;
  return start + share * (swing_keys()[key].mean + numbers.keys[key] - start);
}

}  // namespace

std::optional<SwingMotion> SwingMotion::plan(const Golfer& golfer, SwingKind kind,
                                             const SwingNumbers& numbers,
                                             const SwingTiming& timing) {
  SwingMotion motion(golfer, kind, timing);
  constexpr double straightest_deg = 3;  // of a trail arm that holds a club
  if (motion.figure_.trail_elbow_at_address() < straightest_deg) return std::nullopt;
  motion.lay_feet(numbers);
  if (!motion.lay_paths(numbers) || !motion.moves_as_bodies_do()) return std::nullopt;
  return motion;
}

void SwingMotion::lay_feet(const SwingNumbers& numbers) {
  const auto add = [&](Dof dof, double from_s, double to_s, double by) {
    path(dof).rises.push_back({from_s, to_s, by});
  };
  const Extent extent = extent_of(kind_);
  const double impact_s = timing_.impact_s(), end_s = timing_.end_s();
  const double lead_heel = extent.back * numbers.lead_heel_deg;
  add(Dof::lead_heel, 0.35 * timing_.backswing_s, timing_.at(1), lead_heel);
  add(Dof::lead_heel, timing_.at(1), timing_.at(1.75), -lead_heel);
  // By impact the first rise is three quarters done.
  const double by_impact = extent.at_impact * numbers.trail_heel_at_impact_deg / 0.75;
  add(Dof::trail_heel, timing_.at(1.4), impact_s + 0.4 * timing_.downswing_s, by_impact);
  add(Dof::trail_heel, impact_s - 0.02, impact_s + 0.8 * timing_.finish_s,
      extent.through * numbers.trail_heel_deg - by_impact);
  add(Dof::trail_foot, timing_.at(1.7), impact_s + 0.8 * timing_.finish_s,
      extent.through * numbers.trail_foot_deg);
  add(Dof::head_free, impact_s, end_s, extent.through);
}

bool SwingMotion::lay_paths(const SwingNumbers& numbers) {
  const Golfer& golfer = figure_.golfer();
  auto laid = laid_keys(figure_, kind_, numbers);
  Dofs top = figure_.address(), impact = figure_.address();
  for (const auto& key : laid) {
    if (std::abs(key.phase - 1) < 0.05) top[key.dof] = key.value;
    if (key.phase == 2) impact[key.dof] = key.value;
  }
  for (const auto dof : {Dof::lead_heel, Dof::trail_heel, Dof::trail_foot}) {
    impact[dof] = risen(dof, timing_.impact_s());
  }
  const double hands_x_m = golfer.points[centre(Joint::hands_mid)]->x() +
                           extent_of(kind_).at_impact * numbers.hands_ahead * golfer.body.stature_m;
  if (!figure_.strike(impact, hands_x_m, extent_of(kind_).at_impact * numbers.upright_deg)) {
    return false;
  }
  for (const auto dof :
       {Dof::forward_bend, Dof::trail_span, Dof::arms_up, Dof::club_back, Dof::club_up}) {
    laid.push_back({dof, 2, impact[dof]});
  }
  laid.push_back({Dof::club_back, 1.02,
                  club_at_top(figure_, top, kind_, numbers.lag_deg,
                              trail_elbow_at(trail_elbow_key_at_top(), figure_, kind_, numbers))});
  for (std::size_t i = 0; i < dof_count; ++i) lay_path(static_cast<Dof>(i), laid, numbers.order);
  return lay_trail_arm(numbers, laid) && lay_roll(numbers, impact[Dof::club_roll]);
}

/// The trail arm's keys are bends of its elbow: turned into spans where the rest has come to.
bool SwingMotion::lay_trail_arm(const SwingNumbers& numbers, std::vector<Laid>& laid) {
  const auto keys = swing_keys();
  for (std::size_t i = 0; i < keys.size(); ++i) {
    if (!is_used(keys[i], kind_) || keys[i].measured != Key::Measured::trail_elbow) continue;
    Dofs then = dofs(timing_.at(keys[i].phase));
    if (!figure_.hold_naturally(then, trail_elbow_at(i, figure_, kind_, numbers))) return false;
    laid.push_back({Dof::trail_span, keys[i].phase, then[Dof::trail_span]});
  }
  if (kind_ == SwingKind::full) {
    const double top = value_at(laid, Dof::trail_span, 1),
                 impact = value_at(laid, Dof::trail_span, 2);
    laid.push_back({Dof::trail_span, 1.8, impact + numbers.arms_behind * (top - impact)});
  }
  lay_path(Dof::trail_span, laid, numbers.order);
  return true;
}

void SwingMotion::lay_path(Dof dof, const std::vector<Laid>& laid, double order) {
  std::vector<Knot> knots{{0, figure_.address()[dof]}};
  for (const auto& key : laid) {
    if (key.dof == dof) knots.push_back({timing_.at(phase_of(key, order)), key.value});
  }
  if (knots.size() == 1) knots.push_back({timing_.end_s(), knots[0].value});
  std::sort(knots.begin(), knots.end(),
            [](const Knot& a, const Knot& b) { return a.time_s < b.time_s; });
  path(dof).through = SmoothPath(knots);
}

/// Last, as it follows from how all the rest moves. The hands have begun to roll over when the
/// shaft comes down level and are not done when it is level again.
bool SwingMotion::lay_roll(const SwingNumbers& numbers, double at_impact_deg) {
  constexpr double begun = 0.5, to_do = 0.25;
  std::vector<Laid> laid;
  const auto keys = swing_keys();
  for (std::size_t i = 0; i < keys.size(); ++i) {
    const double phase = keys[i].phase;
    if (!is_used(keys[i], kind_) || keys[i].measured != Key::Measured::over_forearm) continue;
    Dofs then = dofs(timing_.at(phase));
    if (!figure_.hold_naturally(then)) return false;
    // The hands turn less than half round from impact, either way.
    const double turn = std::remainder(then[Dof::club_roll] - at_impact_deg, 360) + numbers.keys[i];
    const Extent extent = extent_of(kind_);
    const double share = (phase == 1.8 ? 1 - begun
                          : phase == 3 ? 1 - to_do
                                       : 1) *
                         (phase < 2 ? extent.back : extent.through);
    laid.push_back({Dof::club_roll, phase, at_impact_deg + share * turn});
  }
  laid.push_back({Dof::club_roll, 2, at_impact_deg});
  lay_path(Dof::club_roll, laid, numbers.order);
  return true;
}

double SwingMotion::risen(Dof dof, double time_s) const {
  double sum = 0;
  for (const auto& rise : path(dof).rises) {
    sum += rise.by * smooth_step((time_s - rise.from_s) / (rise.to_s - rise.from_s));
  }
  return sum;
}

Dofs SwingMotion::dofs(double time_s) const {
  Dofs dofs;
  for (std::size_t i = 0; i < dof_count; ++i) {
    const auto dof = static_cast<Dof>(i);
    dofs[dof] = path(dof).through.at(time_s) + risen(dof, time_s);
  }
  // No elbow bends over backward.
  const double free = std::min(6.0, figure_.address()[Dof::lead_elbow]);
  double& elbow = dofs[Dof::lead_elbow];
  elbow = free - held_below(free - elbow, free - 0.4);
  return dofs;
}

Points SwingMotion::points(double time_s) const {
  const auto points = figure_.pose(dofs(time_s));
  if (!points) throw std::runtime_error("a posture of a swing that no body can take");
  return *points;
}

bool SwingMotion::moves_as_bodies_do() const {
  constexpr double step_s = 0.01, deepest_m = -0.03, most_bent_deg = 135, fastest_mps = 10;
  Vector3d hands = *figure_.golfer().points[centre(Joint::hands_mid)];
  for (double time_s = 0; time_s < timing_.end_s(); time_s += step_s) {
    const auto points = figure_.pose(dofs(time_s));
    if (!points) return false;
    if ((*points)[centre(Joint::hosel)]->y() < deepest_m) return false;
    const Vector3d moved = *(*points)[centre(Joint::hands_mid)] - hands;
    if (moved.norm() > fastest_mps * step_s) return false;
    hands += moved;
    for (const auto side : {Side::lead, Side::trail}) {
      if (bend_deg(*points, side, Joint::shoulder, Joint::elbow, Joint::wrist) > most_bent_deg ||
          bend_deg(*points, side, Joint::hip, Joint::knee, Joint::ankle) > most_bent_deg / 2) {
        return false;
      }
    }
  }
  return passes_positions(TopOf::club) && passes_positions(TopOf::hands);
}

/// In their order; a full swing passes all.
bool SwingMotion::passes_positions(TopOf top) const {
  const auto events = this->events(top);
  double before_s = -1;
  for (const auto position : all_positions) {
    if (!events.has(position)) {
      if (kind_ == SwingKind::full) return false;
      continue;
    }
    if (*events[position] <= before_s) return false;
    before_s = *events[position];
  }
  return events.has(Position::impact) && events.has(Position::finish);
}

}  // namespace rangecheck::samples
