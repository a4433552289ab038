// SPDX-License-Identifier: MIT
#include "pose/side_anchors.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <optional>
#include <span>

namespace rangecheck::pose {
namespace {

/// Where a lead point lies from its trail point, metres in the golfer frame (X to the target, Y up,
/// Z to the ball) on an adult of 1.75 m, each with a spread over golfers; and how high the two are.
struct Usual {
  double x_m, y_m, z_m;
  double x_spread_m, y_spread_m, z_spread_m;
  double height_m;
};
using Stance = std::array<Usual, pair_count>;

// Made-up golfers' joints, with spreads widened for what is taught besides: closed stances, open
// shoulders, hips that turn less. Golfers turn toward the target by the same angles as away from it
// and more.
constexpr Stance address{{{0.148, 0.00, 0.00, 0.02, 0.03, 0.04, 1.45},
                          {0.36, 0.065, -0.02, 0.05, 0.04, 0.04, 1.27},
                          {0.24, 0.068, 0.01, 0.06, 0.05, 0.06, 1.00},
                          {0.07, 0.05, 0.00, 0.03, 0.03, 0.03, 0.77},
                          {0.18, 0.00, 0.00, 0.03, 0.02, 0.05, 0.88},
                          {0.32, 0.00, 0.00, 0.07, 0.02, 0.05, 0.49},
                          {0.40, 0.00, 0.00, 0.08, 0.01, 0.03, 0.07},
                          {0.375, 0.00, 0.00, 0.08, 0.01, 0.03, 0.02},
                          {0.51, 0.00, 0.00, 0.10, 0.01, 0.04, 0.02}}};
constexpr Stance top{{{0.144, -0.005, 0.03, 0.02, 0.04, 0.05, 1.44},
                      {0.09, -0.15, 0.30, 0.12, 0.07, 0.09, 1.27},
                      {0.09, -0.03, 0.29, 0.10, 0.10, 0.10, 1.25},
                      {0.03, -0.03, 0.06, 0.06, 0.06, 0.05, 1.35},
                      {0.14, -0.017, 0.115, 0.04, 0.03, 0.05, 0.86},
                      {0.275, -0.005, 0.15, 0.07, 0.03, 0.06, 0.48},
                      {0.40, 0.01, 0.00, 0.08, 0.03, 0.04, 0.08},
                      {0.375, 0.015, 0.00, 0.08, 0.03, 0.04, 0.03},
                      {0.51, 0.00, 0.00, 0.10, 0.02, 0.05, 0.02}}};
constexpr Stance through{{{0.09, -0.005, -0.08, 0.06, 0.04, 0.07, 1.50},
                          {-0.05, 0.11, -0.31, 0.14, 0.09, 0.08, 1.31},
                          {0.00, 0.06, -0.21, 0.10, 0.10, 0.09, 1.30},
                          {0.00, -0.01, -0.05, 0.08, 0.07, 0.05, 1.40},
                          {0.05, 0.015, -0.16, 0.06, 0.03, 0.05, 0.88},
                          {0.19, -0.02, -0.21, 0.08, 0.04, 0.07, 0.50},
                          {0.44, -0.11, -0.10, 0.09, 0.07, 0.09, 0.12},
                          {0.44, -0.15, -0.09, 0.09, 0.09, 0.09, 0.10},
                          {0.51, 0.00, 0.00, 0.10, 0.05, 0.08, 0.02}}};

/// An estimator's errors in the distance of a pair's points, in stillness and in motion: 10 to 20
/// mm a point, twice that where one hides the other.
constexpr double standing_error_m = 0.03, moving_error_m = 0.04;
/// The same of the depth that it guesses.
constexpr double depth_error_m = 0.15;
/// Cameras: how far round the golfer from square; height and 1 over distance, as `u` = height over
/// distance; tilt of the picture. Common practice, no source.
constexpr double bearing_spread = 0.12;
constexpr double usual_u = 0.30, u_spread = 0.12;
constexpr double usual_v_per_m = 0.30, v_spread_per_m = 0.08;
constexpr double roll_spread = 0.025;
/// How far the line of the feet is turned against the rest of the body.
constexpr double stance_spread = 0.12;
/// How far shoulders are open or closed at address, metres from lead to trail; elbows follow by
/// this share, because both hands are on one grip.
constexpr double open_spread_m = 0.10, elbows_follow = 0.5;
/// A frame that is farther from every golfer than this, for each pair, shows somebody who does
/// something else; half a squared distance of two coordinates is 1 on average.
constexpr double most_a_pair = 3;
/// One frame's cost is bounded, and so many frames of a phase are looked at.
constexpr double most_cost = 40;
constexpr std::size_t most_frames = 16;

/// On a grip the trail hand is this far ahead of the lead hand along the way that hands or arms
/// point. Fitted to made-up swings of every view and point set, seen as a real estimator sees them.
constexpr double trail_ahead_m = 0.04, trail_ahead_spread_m = 0.05;
/// One frame's word on it is bounded, and all frames of a phase together count as so many looks.
constexpr double most_grip_cost = 4, grip_looks = 2;

/// A normal distribution of one picture coordinate of all pairs' distances.
struct Spread {
  std::size_t n = 0;
  std::array<double, pair_count> mean{};
  std::array<std::array<double, pair_count>, pair_count> inverse{};  ///< of the covariance

  /// Adds a common cause that moves each distance by its share of a normal deviate.
  void add_cause(std::span<const double> shares, double spread) {
    std::array<double, pair_count> way{};
    double denominator = 1;
    for (std::size_t i = 0; i < n; ++i) {
      for (std::size_t k = 0; k < n; ++k) way[i] += inverse[i][k] * shares[k];
      denominator += spread * spread * shares[i] * way[i];
    }
    for (std::size_t i = 0; i < n; ++i) {
      for (std::size_t k = 0; k < n; ++k)
        inverse[i][k] -= spread * spread * way[i] * way[k] / denominator;
    }
  }
};

struct Expected {
  Spread x, y;
  std::array<double, pair_count> depth_mean{}, depth_inverse{};  ///< of each pair by itself
};

/// What is seen of a pair.
struct Seen {
  std::size_t pair;
  Flat apart;
  std::optional<double> deeper_m;
};

bool is_foot(std::size_t pair) { return pair >= index_of(Pair::ankles); }

/// The distances of the pairs in `seen` in the picture of one view. Seen from the front, x is X
/// and what is nearer the ball is nearer the camera; along the line, x is Z and lead is farther.
Expected expected(const Stance& stance, std::span<const Seen> seen, intake::View view,
                  double error_m, double trunk_spread_m) {
  const bool front = view == intake::View::face_on;
  Expected out;
  out.x.n = out.y.n = seen.size();
  std::array<double, pair_count> bearing{}, feet{}, trunk{}, u{}, v{}, roll{};
  for (std::size_t i = 0; i < seen.size(); ++i) {
    const Usual& usual = stance[seen[i].pair];
    const double aside = front ? usual.x_m : usual.z_m, away = front ? -usual.z_m : usual.x_m;
    const double spread_m = front ? usual.x_spread_m : usual.z_spread_m;
    const double away_spread_m = front ? usual.z_spread_m : usual.x_spread_m;
    out.x.mean[i] = aside;
    out.x.inverse[i][i] = 1 / (spread_m * spread_m + error_m * error_m);
    out.depth_mean[i] = away;
    out.depth_inverse[i] = 1 / (away_spread_m * away_spread_m + depth_error_m * depth_error_m);
    bearing[i] = away;
    feet[i] = is_foot(seen[i].pair) ? away : seen[i].pair == index_of(Pair::knees) ? 0.6 * away : 0;
    if (!front && seen[i].pair == index_of(Pair::shoulders)) trunk[i] = 1;
    if (!front && seen[i].pair == index_of(Pair::elbows)) trunk[i] = elbows_follow;
    u[i] = -away;
    v[i] = usual.height_m * away;
    roll[i] = aside;
    out.y.mean[i] = -usual.y_m + usual_u * u[i] + usual_v_per_m * v[i];
    const double by_depth_m = (usual_u - usual_v_per_m * usual.height_m) * away_spread_m;
    out.y.inverse[i][i] =
        1 / (usual.y_spread_m * usual.y_spread_m + error_m * error_m + by_depth_m * by_depth_m);
  }
  out.x.add_cause(bearing, bearing_spread);
  out.x.add_cause(feet, stance_spread);
  out.x.add_cause(trunk, trunk_spread_m);
  out.y.add_cause(u, u_spread);
  out.y.add_cause(v, v_spread_per_m);
  out.y.add_cause(roll, roll_spread);
  return out;
}

/// Half the squared distance of one frame's pairs from what is expected, for every set of them
/// exchanged.
class Standing {
 public:
  Standing(const Expected& expected, std::span<const Seen> seen) : seen_(seen) {
    for (std::size_t i = 0; i < seen.size(); ++i) {
      const Flat a = seen[i].apart;
      for (std::size_t k = 0; k < seen.size(); ++k) {
        const Flat b = seen[k].apart;
        product_[i][k] =
            expected.x.inverse[i][k] * a.x_m * b.x_m + expected.y.inverse[i][k] * a.y_m * b.y_m;
        pull_[i] += expected.x.inverse[i][k] * a.x_m * expected.x.mean[k] +
                    expected.y.inverse[i][k] * a.y_m * expected.y.mean[k];
      }
      for (std::size_t k = 0; k < seen.size(); ++k) {
        usual_ += 0.5 * (expected.x.inverse[i][k] * expected.x.mean[i] * expected.x.mean[k] +
                         expected.y.inverse[i][k] * expected.y.mean[i] * expected.y.mean[k]);
      }
      if (seen[i].deeper_m)
        pull_[i] += expected.depth_inverse[i] * *seen[i].deeper_m * expected.depth_mean[i];
    }
  }

  /// One pair is turned at a time, in the order of a Gray code. Nothing when no set of exchanged
  /// pairs makes a golfer of it.
  std::optional<SetCosts> costs() const {
    const std::size_t n = seen_.size();
    std::array<double, pair_count> sign;
    sign.fill(1);
    double cost = usual_;
    for (std::size_t i = 0; i < n; ++i) {
      cost -= pull_[i];
      for (std::size_t k = 0; k < n; ++k) cost += 0.5 * product_[i][k];
    }
    std::array<double, set_count> of_seen{};
    std::size_t set = 0;
    of_seen[0] = cost;
    for (std::size_t step = 1; step < std::size_t{1} << n; ++step) {
      const auto i = static_cast<std::size_t>(std::countr_zero(step));
      double others = 0;
      for (std::size_t k = 0; k < n; ++k)
        if (k != i) others += sign[k] * product_[i][k];
      cost += 2 * sign[i] * (pull_[i] - others);
      sign[i] = -sign[i];
      set ^= std::size_t{1} << i;
      of_seen[set] = cost;
    }
    return spread_out(of_seen);
  }

 private:
  /// From sets of the pairs seen to sets of all pairs; above the least, and bounded.
  std::optional<SetCosts> spread_out(const std::array<double, set_count>& of_seen) const {
    const auto count = static_cast<std::ptrdiff_t>(std::size_t{1} << seen_.size());
    const double least = *std::min_element(of_seen.begin(), of_seen.begin() + count);
    if (least > most_a_pair * static_cast<double>(seen_.size())) return std::nullopt;
    SetCosts out;
    for (std::size_t all = 0; all < set_count; ++all) {
      std::size_t set = 0;
      for (std::size_t i = 0; i < seen_.size(); ++i) set |= (all >> seen_[i].pair & 1U) << i;
      out[all] = static_cast<float>(std::min(most_cost, of_seen[set] - least));
    }
    return out;
  }

  std::span<const Seen> seen_;
  std::array<std::array<double, pair_count>, pair_count> product_{};
  std::array<double, pair_count> pull_{};
  double usual_ = 0;
};

/// `of_film` evenly spread over `frames`.
std::vector<std::size_t> some_of(const std::vector<std::size_t>& frames) {
  if (frames.size() <= most_frames) return frames;
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < most_frames; ++i)
    out.push_back(frames[i * (frames.size() - 1) / (most_frames - 1)]);
  return out;
}

class Film {
 public:
  Film(const Pairs& pairs, intake::View view, bool from_behind)
      : pairs_(pairs), view_(view), from_behind_(from_behind), out_(pairs.frames.size()) {}

  void look(const Stance& stance, const std::vector<std::size_t>& phase, double error_m,
            double trunk_spread_m) {
    const auto frames = some_of(phase);
    PairSet last = 0;
    Expected usual;
    for (const std::size_t f : frames) {
      if (!pairs_.frames[f]) continue;
      std::vector<Seen> seen;
      PairSet set = 0;
      for (std::size_t p = 0; p < pair_count; ++p) {
        const auto each = pairs_.frames[f]->apart(p);
        if (!each) continue;
        seen.push_back(
            {p, {from_behind_ ? -each->x_m : each->x_m, each->y_m}, pairs_.frames[f]->deeper_m[p]});
        set |= 1U << p;
      }
      if (set == 0) continue;
      if (set != last) usual = expected(stance, seen, view_, error_m, trunk_spread_m);
      last = set;
      auto costs = Standing(usual, seen).costs();
      if (!costs) continue;
      for (float& cost : *costs) cost /= static_cast<float>(frames.size());
      out_[f] = std::make_unique<SetCosts>(*costs);
    }
  }

  std::vector<std::unique_ptr<SetCosts>> run(const Phases& phases) {
    look(address, phases.address, standing_error_m, open_spread_m);
    look(top, phases.top, moving_error_m, 0);
    look(through, phases.through, moving_error_m, 0);
    return std::move(out_);
  }

 private:
  const Pairs& pairs_;
  intake::View view_;
  bool from_behind_;
  std::vector<std::unique_ptr<SetCosts>> out_;
};

}  // namespace

std::vector<std::unique_ptr<SetCosts>> standing_costs(const Pairs& pairs, const Phases& phases,
                                                      intake::View view, bool from_behind) {
  return Film(pairs, view, from_behind).run(phases);
}

std::vector<float> grip_costs(const Pairs& pairs, const Phases& phases) {
  std::vector<bool> at_address(pairs.frames.size(), false), raised = at_address;
  for (const std::size_t f : phases.address) at_address[f] = true;
  for (const auto* phase : {&phases.top, &phases.through})
    for (const std::size_t f : *phase) raised[f] = true;
  std::vector<std::size_t> between;
  for (std::size_t f = 0; f < pairs.frames.size(); ++f)
    if (!at_address[f] && !raised[f]) between.push_back(f);
  std::vector<float> out(pairs.frames.size(), 0);
  const std::vector<std::size_t>* const phases_told[] = {&phases.top, &phases.through, &between};
  for (const auto* phase : phases_told) {
    for (const std::size_t f : *phase) {
      if (!pairs.frames[f] || !pairs.frames[f]->lead_hand_ahead_m) continue;
      const double odds = 2 * trail_ahead_m * *pairs.frames[f]->lead_hand_ahead_m /
                          (trail_ahead_spread_m * trail_ahead_spread_m);
      out[f] = static_cast<float>(grip_looks * std::clamp(-odds, -most_grip_cost, most_grip_cost) /
                                  static_cast<double>(phase->size()));
    }
  }
  return out;
}

}  // namespace rangecheck::pose
