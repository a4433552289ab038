// SPDX-License-Identifier: MIT
#include "pose/side_links.hpp"

#include <algorithm>
#include <cmath>

namespace rangecheck::pose {
namespace {

/// No one frame says more than this, and costs above this grow slowly.
constexpr double most_cost = 12, tail_cost = 4;
/// Frame-to-frame noise of a distance between two points, at least. Jitter is 3 to 6 mm a point.
constexpr double least_noise_m = 0.006;
/// Points of which an estimator is less sure than this are partly guessed, and stray by so much
/// for each unit of confidence below. Far arms in a side view come with 0.2 to 0.35.
constexpr double sure_enough = 0.6, doubt_m = 0.06;
/// How far a speed that was seen may change until the next sight, as a share of it, and without
/// having been seen, a frame.
constexpr double speed_change = 0.4;
constexpr double unseen_step_m = 0.004;
/// What is known of speeds before any is seen, a frame: a limb in a downswing at 30 Hz.
constexpr double usual_speed_m = 0.03;
/// A straight path is looked for so far on either side of a gap.
constexpr double straight_m = 0.05;
constexpr std::size_t straight_frames = 12;
/// Where only one point of a pair is seen: its noise, and its way a frame.
constexpr double lone_noise_m = 0.03, lone_step_m = 0.02;

float bounded(double cost) { return static_cast<float>(std::clamp(cost, -most_cost, most_cost)); }

/// The pair apart by enough to tell, in one frame.
struct Sight {
  std::size_t frame;
  Flat apart;
  double doubt_m;  ///< noise besides the usual
};

/// Where a distance is at a moment and how it changes a frame; variances are those of unit noise.
struct Course {
  Flat at, speed;
  double at_variance = 0, speed_variance = 0;
  double strayed = 0;  ///< sum of squares about the straight path, both coordinates
  double freedom = 0;  ///< of that sum
};

double noise_of(const std::vector<Sight>& sights) {
  std::vector<double> second;
  for (std::size_t i = 2; i < sights.size(); ++i) {
    if (sights[i].frame != sights[i - 2].frame + 2) continue;
    const Flat a = sights[i - 2].apart, b = sights[i - 1].apart, c = sights[i].apart;
    const Flat before = a.dot(b) < 0 ? a * -1 : a, after = c.dot(b) < 0 ? c * -1 : c;
    second.push_back((before + after - b * 2).squared());
  }
  if (second.empty()) return least_noise_m;
  const auto middle = second.begin() + static_cast<std::ptrdiff_t>(second.size() / 2);
  std::nth_element(second.begin(), middle, second.end());
  // Median of a squared length is 1.39 variances; a second difference has six.
  return std::max(least_noise_m, std::sqrt(*middle / (6 * 1.39)));
}

/// The straight path through the sights from `first` on, going away from the gap by `step`, each
/// turned to agree with the one before.
Course course(const std::vector<Sight>& sights, std::size_t first, int step, double moment,
              double noise_m) {
  double n = 0, t1 = 0, t2 = 0;
  Flat sum{}, sum_t{};
  double sum_squared = 0;
  Flat last = sights[first].apart;
  std::size_t at = first;
  for (std::size_t count = 0; count < straight_frames; ++count) {
    Flat here = sights[at].apart;
    if (here.dot(last) < 0) here = here * -1;
    if ((here - sights[first].apart).squared() > straight_m * straight_m) break;
    const double t = static_cast<double>(sights[at].frame) - moment;
    const auto away = std::max(sights[at].frame, sights[first].frame) -
                      std::min(sights[at].frame, sights[first].frame);
    if (away > 2 * straight_frames) break;
    n += 1;
    t1 += t;
    t2 += t * t;
    sum = sum + here;
    sum_t = sum_t + here * t;
    sum_squared += here.squared();
    last = here;
    if (step < 0 && at == 0) break;
    at = step < 0 ? at - 1 : at + 1;
    if (at >= sights.size()) break;
  }
  // Least squares with a weak belief that nothing moves.
  const double prior = noise_m * noise_m / (usual_speed_m * usual_speed_m);
  const double spread = t2 - t1 * t1 / n + prior;
  Course out;
  out.speed = (sum_t - sum * (t1 / n)) * (1 / spread);
  out.at = sum * (1 / n) - out.speed * (t1 / n);
  out.speed_variance = 1 / spread;
  out.at_variance = 1 / n;
  out.strayed = std::max(0.0, sum_squared - sum.squared() / n - out.speed.squared() * spread);
  out.freedom = std::max(0.0, 2 * n - 4);
  return out;
}

bool are_apart(Flat apart) { return apart.squared() > in_one_place_m * in_one_place_m; }

/// A cost whose tails are long: an estimator may have taken something else for a limb.
double with_tails(double cost) { return tail_cost * std::log1p(cost / tail_cost); }

/// Cost of the pair's being turned between two sights, less that of its not being.
float cost_of_turn(const std::vector<Sight>& sights, std::size_t after, double noise_m) {
  const double from = static_cast<double>(sights[after - 1].frame);
  const double to = static_cast<double>(sights[after].frame);
  const double moment = (from + to) / 2, gap = to - from;
  const Course a = course(sights, after - 1, -1, moment, noise_m);
  const Course b = course(sights, after, 1, moment, noise_m);
  // What is usual for the pair, and what is seen about here: hidden limbs shiver more.
  constexpr double usual_freedom = 6;
  const double variance = (usual_freedom * noise_m * noise_m + a.strayed + b.strayed) /
                          (usual_freedom + a.freedom + b.freedom);
  const double doubt = std::max(sights[after - 1].doubt_m, sights[after].doubt_m);
  const double change_m = speed_change * std::sqrt(std::max(a.speed.squared(), b.speed.squared()));
  const double strayed_m = gap * (0.5 * change_m + unseen_step_m);
  const double at_variance =
      (a.at_variance + b.at_variance) * variance + strayed_m * strayed_m + doubt * doubt;
  const double speed_variance = (a.speed_variance + b.speed_variance) * variance +
                                2 * change_m * change_m + unseen_step_m * unseen_step_m +
                                doubt * doubt;
  const auto cost = [&](double sign) {
    return 0.5 * ((a.at - b.at * sign).squared() / at_variance +
                  (a.speed - b.speed * sign).squared() / speed_variance);
  };
  return bounded(with_tails(cost(-1)) - with_tails(cost(1)));
}

/// Both points seen, and apart.
std::vector<Sight> sights_of(const Pairs& pairs, std::size_t pair) {
  std::vector<Sight> out;
  for (std::size_t f = 0; f < pairs.frames.size(); ++f) {
    if (!pairs.frames[f]) continue;
    const auto apart = pairs.frames[f]->apart(pair);
    if (apart && are_apart(*apart))
      out.push_back(
          {f, *apart, doubt_m * std::max(0.0, sure_enough - pairs.frames[f]->sure[pair])});
  }
  return out;
}

/// Where one point of a pair was last.
struct Seen {
  std::size_t frame;
  Flat at;
};

/// Follows points that are seen without the other of their pair, from the last frame with both.
class LonePoints {
 public:
  /// What it costs that the pair has turned since it was last seen apart, by the points that were
  /// alone in between; 0 where there were none.
  float see_both(std::size_t frame, Flat lead, Flat trail, bool apart) {
    float turned = 0;
    if (apart && alone_) {
      turned = bounded(cost(frame, lead, 1) + cost(frame, trail, 0) - cost(frame, lead, 0) -
                       cost(frame, trail, 1));
    }
    // In one place they may be either: a sight before it still counts.
    if (apart) since_ = frame;
    if (apart) alone_ = false;
    last_ = {Seen{frame, lead}, Seen{frame, trail}};
    return turned;
  }

  std::optional<Lone> see_one(std::size_t frame, std::size_t side, Flat at) {
    if (!since_) return std::nullopt;
    const float turned = bounded(cost(frame, at, 1 - side) - cost(frame, at, side));
    last_[turned < 0 ? 1 - side : side] = {frame, at};
    alone_ = true;
    return Lone{*since_, turned};
  }

 private:
  /// Of a point's being the one of `side`. With the logarithm of the spread: what was lost long ago
  /// may be anywhere, and so hardly here.
  double cost(std::size_t frame, Flat at, std::size_t side) const {
    const Seen& last = last_[side];
    const double sigma_m = lone_noise_m + lone_step_m * static_cast<double>(frame - last.frame);
    return with_tails(0.5 * (at - last.at).squared() / (sigma_m * sigma_m)) + 2 * std::log(sigma_m);
  }

  std::optional<std::size_t> since_;
  std::array<Seen, 2> last_{};
  bool alone_ = false;
};

/// Fills `out.lone`, and gives what lone points say of each frame that shows both again.
std::vector<float> follow_lone(const Pairs& pairs, std::size_t pair, Links& out) {
  LonePoints points;
  std::vector<float> turned(pairs.frames.size(), 0);
  for (std::size_t f = 0; f < pairs.frames.size(); ++f) {
    if (!pairs.frames[f]) continue;
    const auto &a = pairs.frames[f]->lead[pair], &b = pairs.frames[f]->trail[pair];
    if (a && b) turned[f] = points.see_both(f, *a, *b, are_apart(*a - *b));
    if (a && !b) out.lone[f][pair] = points.see_one(f, 0, *a);
    if (b && !a) out.lone[f][pair] = points.see_one(f, 1, *b);
  }
  return turned;
}

/// A pair that is not told apart for a while may have turned in any frame of that while, but once.
struct Gap {
  std::size_t pair, first, last;
  float cost;
};

/// A turn that is likely is put into the frame of its gap in which most other pairs seem to turn
/// too; any other frame of the gap costs as much as that turn is worth, so that it is taken once.
void place(const std::vector<Gap>& gaps, std::vector<PairCosts>& out) {
  std::vector<float> likely(out.size(), 0);
  for (const Gap& gap : gaps) {
    if (gap.cost >= 0) continue;
    const auto frames_in = static_cast<float>(gap.last - gap.first + 1);
    for (std::size_t f = gap.first; f <= gap.last; ++f) likely[f] -= gap.cost / frames_in;
  }
  for (const Gap& gap : gaps) {
    std::size_t most = gap.last;
    for (std::size_t f = gap.first; f < gap.last; ++f)
      if (likely[f] > likely[most]) most = f;
    for (std::size_t f = gap.first; f <= gap.last; ++f)
      out[f][gap.pair] = f == most ? gap.cost : std::abs(gap.cost);
  }
}

}  // namespace

Links links_of(const Pairs& pairs) {
  Links out;
  out.turned.resize(pairs.frames.size(), PairCosts{});
  out.lone.resize(pairs.frames.size());
  std::vector<Gap> gaps;
  for (std::size_t p = 0; p < pair_count; ++p) {
    const auto by_lone = follow_lone(pairs, p, out);
    const auto sights = sights_of(pairs, p);
    const double noise_m = noise_of(sights);
    for (std::size_t i = 1; i < sights.size(); ++i) {
      gaps.push_back({p, sights[i - 1].frame + 1, sights[i].frame,
                      bounded(cost_of_turn(sights, i, noise_m) + by_lone[sights[i].frame])});
    }
  }
  place(gaps, out.turned);
  return out;
}

}  // namespace rangecheck::pose
