// SPDX-License-Identifier: MIT
#include "motion/raw.hpp"

#include <algorithm>
#include <cmath>

#include "motion/filter.hpp"

namespace rangecheck::motion {
namespace {

/// Samples this many times farther off than those around them are outliers; three is usual
/// (Pearson, Proc. IEEE 2002, from memory), but a swing's noise is not all alike.
constexpr double outlier_times = 5;
/// Samples to either side over which the usual distance is taken: each outlier makes five far off,
/// and they must stay fewer than half.
constexpr std::size_t outlier_reach = 15;
constexpr int outlier_rounds = 4;
/// Samples to either side over which noise is taken: hidden hands are far noisier for a while.
constexpr std::size_t noise_reach = 7;
/// Neighbours may be this many steps apart on average, so that no cubic spans a long gap.
constexpr double widest_step = 1.6;

/// How far each sample lies from the cubic through its four neighbours, over how far white noise of
/// size one would put it. The two samples at each end, and those about gaps, are 0.
std::vector<double> off_its_neighbours(const std::vector<double>& time_s,
                                       const std::vector<double>& samples, double step_s) {
  std::vector<double> out(samples.size());
  for (std::size_t i = 2; i + 2 < samples.size(); ++i) {
    if (time_s[i + 2] - time_s[i - 2] > 4 * widest_step * step_s) continue;
    const auto weights =
        cubic_weights({time_s[i - 2], time_s[i - 1], time_s[i + 1], time_s[i + 2]}, time_s[i]);
    const std::array around{samples[i - 2], samples[i - 1], samples[i + 1], samples[i + 2]};
    double off = samples[i], size = 1;
    for (std::size_t k = 0; k < around.size(); ++k) {
      off -= weights[k] * around[k];
      size += weights[k] * weights[k];
    }
    out[i] = off / std::sqrt(size);
  }
  return out;
}

template <class T>
void erase(std::vector<T>& values, const std::vector<bool>& which) {
  std::size_t kept = 0;
  for (std::size_t i = 0; i < values.size(); ++i)
    if (!which[i]) values[kept++] = values[i];
  values.resize(kept);
}

/// How far some samples lie off in either direction, kept in order while samples come and go.
class SortedWindow {
 public:
  void add(double off_x, double off_y) {
    for (const double off : {std::abs(off_x), std::abs(off_y)})
      away_.insert(std::upper_bound(away_.begin(), away_.end(), off), off);
  }
  void take(double off_x, double off_y) {
    for (const double off : {std::abs(off_x), std::abs(off_y)})
      away_.erase(std::lower_bound(away_.begin(), away_.end(), off));
  }
  /// The standard deviation that their median tells; 0 of none. There are two a sample, so that
  /// their number is even.
  double deviation() const {
    if (away_.empty()) return 0;
    const std::size_t half = away_.size() / 2;
    return deviation_over_mad * ((away_[half] + away_[half - 1]) / 2);
  }

 private:
  std::vector<double> away_;
};

/// Of the wild samples those farthest off among the five around them: an outlier draws its
/// neighbours' cubics after it.
std::vector<bool> farthest_of(const std::vector<bool>& wild, const std::vector<double>& off) {
  std::vector<bool> out(wild.size());
  for (std::size_t i = 2; i + 2 < wild.size(); ++i) {
    const auto around = off.begin() + static_cast<std::ptrdiff_t>(i);
    out[i] = wild[i] && off[i] >= *std::max_element(around - 2, around + 3);
  }
  return out;
}

}  // namespace

Raw raw_of(const pose::Track& track, const Clock& clock, std::size_t landmark) {
  Raw out;
  for (std::size_t f = 0; f < track.frames.size(); ++f) {
    const auto& person = track.frames[f].person;
    if (clock.repeated[f] || !person || !person->image.values()[landmark]) continue;
    const auto& point = *person->image.values()[landmark];
    out.time_s.push_back(clock.time_s[f]);
    out.x_px.push_back(point.at.x_px);
    out.y_px.push_back(point.at.y_px);
    out.confidence.push_back(point.confidence);
  }
  return out;
}

std::array<double, 4> cubic_weights(const std::array<double, 4>& time_s, double at) {
  std::array<double, 4> out{1, 1, 1, 1};
  for (std::size_t i = 0; i < 4; ++i) {
    for (std::size_t j = 0; j < 4; ++j)
      if (j != i) out[i] *= (at - time_s[j]) / (time_s[i] - time_s[j]);
  }
  return out;
}

std::size_t take_outliers_out(Raw& raw, double step_s, double floor_px) {
  const std::size_t before = raw.count();
  for (int round = 0; round < outlier_rounds; ++round) {
    const auto off_x = off_its_neighbours(raw.time_s, raw.x_px, step_s);
    const auto off_y = off_its_neighbours(raw.time_s, raw.y_px, step_s);
    const auto wild_x = outliers(off_x, outlier_reach, outlier_times, floor_px);
    const auto wild_y = outliers(off_y, outlier_reach, outlier_times, floor_px);
    std::vector<bool> wild(raw.count());
    std::vector<double> off(raw.count());
    for (std::size_t i = 0; i < raw.count(); ++i) {
      wild[i] = wild_x[i] || wild_y[i];
      off[i] = std::hypot(off_x[i], off_y[i]);
    }
    const auto out = farthest_of(wild, off);
    if (std::find(out.begin(), out.end(), true) == out.end()) break;
    for (auto* values : {&raw.time_s, &raw.x_px, &raw.y_px, &raw.confidence}) erase(*values, out);
  }
  return before - raw.count();
}

Noise noise_of(const Raw& raw, double step_s) {
  const auto off_x = off_its_neighbours(raw.time_s, raw.x_px, step_s);
  const auto off_y = off_its_neighbours(raw.time_s, raw.y_px, step_s);
  Noise out;
  out.here_px.resize(raw.count());
  if (raw.count() < 5) return out;
  // The samples that have two neighbours on either side.
  const std::size_t begin = 2, end = raw.count() - 2;
  std::vector<double> away;
  for (const auto* off : {&off_x, &off_y})
    for (std::size_t i = begin; i < end; ++i) away.push_back(std::abs((*off)[i]));
  out.usual_px = deviation_over_mad * median(std::move(away));
  SortedWindow here;
  std::size_t added = begin, taken = begin;
  for (std::size_t i = 0; i < raw.count(); ++i) {
    for (; added < std::min(i + noise_reach + 1, end); ++added)
      here.add(off_x[added], off_y[added]);
    for (; taken + noise_reach < i && taken < end; ++taken) here.take(off_x[taken], off_y[taken]);
    out.here_px[i] = std::max(out.usual_px, here.deviation());
  }
  return out;
}

}  // namespace rangecheck::motion
