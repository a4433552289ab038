// SPDX-License-Identifier: MIT
#include "intake/frame_match.hpp"

#include <algorithm>
#include <cmath>

namespace rangecheck::intake {
namespace {

using Seconds = std::vector<double>;

std::optional<Seconds> stamps_of(const FrameCount& count) {
  Seconds out;
  for (const auto& time : count.times) {
    if (!time || (!out.empty() && time->in_seconds() <= out.back())) return std::nullopt;
    out.push_back(time->in_seconds());
  }
  if (out.empty()) return std::nullopt;
  return out;
}

std::optional<Seconds> by_rate(const FrameCount& count) {
  if (!count.frame_rate_hz) return std::nullopt;
  Seconds out;
  for (const std::size_t number : count.numbers) {
    out.push_back(static_cast<double>(number) / *count.frame_rate_hz);
  }
  return out;
}

/// Half the usual time from one frame to the next. Of a single frame: a moment.
double half_interval(const Seconds& at) {
  Seconds steps;
  for (std::size_t i = 1; i < at.size(); ++i) steps.push_back(at[i] - at[i - 1]);
  if (steps.empty()) return 0.001;
  const auto middle = steps.begin() + static_cast<std::ptrdiff_t>(steps.size() / 2);
  std::nth_element(steps.begin(), middle, steps.end());
  return *middle / 2;
}

/// `at` increases.
std::optional<std::size_t> nearest_within(const Seconds& at, double time, double within) {
  if (at.empty()) return std::nullopt;
  auto best = static_cast<std::size_t>(std::lower_bound(at.begin(), at.end(), time) - at.begin());
  if (best == at.size() || (best > 0 && time - at[best - 1] < at[best] - time)) --best;
  if (std::abs(at[best] - time) > within) return std::nullopt;
  return best;
}

FrameMatch match_times(FrameMatch::By by, const Seconds& film, const Seconds& other) {
  // A hair more, so that a frame half way between two is not lost to rounding.
  const double within = half_interval(film) * 1.001;
  FrameMatch out{by, {}};
  for (const double time : film) out.other.push_back(nearest_within(other, time, within));
  return out;
}

FrameMatch match_numbers(const FrameCount& film, const FrameCount& other, long long shift) {
  FrameMatch out{FrameMatch::By::numbers, {}};
  for (const std::size_t number : film.numbers) {
    const auto wanted = static_cast<long long>(number) - shift;
    const auto found = wanted < 0 ? other.numbers.end()
                                  : std::lower_bound(other.numbers.begin(), other.numbers.end(),
                                                     static_cast<std::size_t>(wanted));
    const bool is_there = found != other.numbers.end() && static_cast<long long>(*found) == wanted;
    out.other.push_back(is_there
                            ? std::optional(static_cast<std::size_t>(found - other.numbers.begin()))
                            : std::nullopt);
  }
  return out;
}

/// What to add to the other file's numbers where both list the same frames, one for one.
std::optional<long long> same_count(const FrameCount& film, const FrameCount& other) {
  if (film.numbers.empty() || film.numbers.size() != other.numbers.size()) return std::nullopt;
  const auto shift_at = [&](std::size_t i) {
    return static_cast<long long>(film.numbers[i]) - static_cast<long long>(other.numbers[i]);
  };
  for (std::size_t i = 1; i < film.numbers.size(); ++i) {
    if (shift_at(i) != shift_at(0)) return std::nullopt;
  }
  return shift_at(0);
}

bool rates_differ(const FrameCount& film, const FrameCount& other) {
  if (!film.frame_rate_hz || !other.frame_rate_hz) return false;
  return std::abs(std::log(*film.frame_rate_hz / *other.frame_rate_hz)) > 0.01;
}

/// A detector leaves out frames in which it found nothing; where it counts from 1 and the film from
/// 0, its last number or its first lies one beyond the film's.
std::optional<FrameMatch> match_some_numbers(const FrameCount& film, const FrameCount& other) {
  if (film.numbers.empty() || other.numbers.empty() || rates_differ(film, other)) {
    return std::nullopt;
  }
  const bool starts_before = other.numbers.front() + 1 == film.numbers.front();
  const bool ends_after = other.numbers.back() == film.numbers.back() + 1;
  if (starts_before && !ends_after) return match_numbers(film, other, 1);
  if (ends_after && other.numbers.front() > film.numbers.front()) {
    return match_numbers(film, other, -1);
  }
  if (other.numbers.back() > film.numbers.back()) return std::nullopt;
  return match_numbers(film, other, 0);
}

}  // namespace

std::size_t FrameMatch::matched() const {
  return static_cast<std::size_t>(
      std::count_if(other.begin(), other.end(), [](const auto& index) { return index; }));
}

std::optional<FrameMatch> match_frames(const FrameCount& film, const FrameCount& other) {
  const auto film_stamps = stamps_of(film), other_stamps = stamps_of(other);
  if (film_stamps && other_stamps) {
    auto match = match_times(FrameMatch::By::stamps, *film_stamps, *other_stamps);
    if (match.matched() > 0) return match;
  }
  if (const auto shift = same_count(film, other)) return match_numbers(film, other, *shift);
  std::optional<FrameMatch> match = match_some_numbers(film, other);
  if (!match) {
    const auto film_times = by_rate(film), other_times = by_rate(other);
    if (film_times && other_times) {
      match = match_times(FrameMatch::By::rates, *film_times, *other_times);
    }
  }
  if (!match || match->matched() == 0) return std::nullopt;
  return match;
}

std::optional<std::size_t> frame_at(const FrameCount& film, Duration time) {
  const auto stamps = stamps_of(film);
  const auto at = stamps ? stamps : by_rate(film);
  if (!at) return std::nullopt;
  return nearest_within(*at, time.in_seconds(), half_interval(*at) * 1.001);
}

}  // namespace rangecheck::intake
