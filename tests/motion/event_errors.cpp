// SPDX-License-Identifier: MIT
#include "motion/event_errors.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "drawn_film.hpp"

namespace rangecheck::test {
namespace {

/// A swing found farther than this from the real one is another.
constexpr double another_s = 0.25;

std::string_view word_for(samples::SwingKind kind) {
  switch (kind) {
    case samples::SwingKind::pitch:
      return "pitch";
    case samples::SwingKind::chip:
      return "chip";
    case samples::SwingKind::putt:
      return "putt";
    case samples::SwingKind::full:
      break;
  }
  return "full";
}

double mean_of(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0) /
         static_cast<double>(std::max<std::size_t>(1, values.size()));
}

}  // namespace

double EventErrors::quantile_s(double share) const {
  if (error_s.empty()) return 0;
  std::vector<double> sizes;
  for (const double each : error_s) sizes.push_back(std::abs(each));
  std::sort(sizes.begin(), sizes.end());
  return sizes[static_cast<std::size_t>(share * static_cast<double>(sizes.size() - 1) + 0.5)];
}

double EventErrors::mean_s() const { return mean_of(error_s); }
double EventErrors::mean_stated_s() const { return mean_of(stated_s); }

double EventErrors::covered() const {
  double inside = 0;
  for (std::size_t i = 0; i < error_s.size(); ++i)
    inside += std::abs(error_s[i]) <= 2 * stated_s[i];
  return inside / static_cast<double>(std::max<std::size_t>(1, error_s.size()));
}

void judge(const pose::Track& track, std::optional<double> rate_hz, std::string_view kind,
           const PositionMap<double>& truth_s, Outcome& out) {
  ++out.films;
  const auto film = motion::film_motion(track, rate_hz, kind);
  if (!film) {
    out.refused.push_back(to_string(film.error()));
    return;
  }
  if (!film->swing) {
    ++out.no_swing;
    return;
  }
  bool wrong = false;
  for (const Position position : all_positions) {
    const auto& truth = truth_s[position];
    const auto& found = (*film->swing)[position].found;
    if (!truth) continue;
    EventErrors& errors = out[position];
    ++errors.shown;
    if (!found) continue;
    errors.error_s.push_back(found->time.in_seconds() - *truth);
    errors.stated_s.push_back(found->standard_uncertainty.in_seconds());
    const bool central = position == Position::top || position == Position::impact;
    wrong = wrong || (central && std::abs(errors.error_s.back()) > another_s);
  }
  out.silently_wrong += wrong;
}

Outcome outcome_of(samples::SwingOptions options, samples::View view, std::uint64_t first_seed,
                   int count) {
  options.base.views = {view};
  Outcome out;
  for (int i = 0; i < count; ++i) {
    const auto drawn = samples::draw_swing(first_seed + static_cast<std::uint64_t>(i), options);
    for (const auto& film : drawn.films) {
      const auto track = pose::follow_golfer(film_of(film));
      if (!track) {
        ++out.films;
        out.refused.push_back(to_string(track.error()));
        continue;
      }
      judge(*track, std::nullopt, word_for(options.kind), film.event_s, out);
    }
  }
  return out;
}

}  // namespace rangecheck::test
