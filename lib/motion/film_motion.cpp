// SPDX-License-Identifier: MIT
#include "motion/film_motion.hpp"

#include <algorithm>
#include <utility>

namespace rangecheck::motion {
namespace {

/// The last frame of the track that was taken before the swing sets off.
SwingStart start_of(const Swing& swing, const Clock& clock) {
  const auto& start = swing[Position::address].found;
  if (!start) return {};
  const auto after =
      std::upper_bound(clock.time_s.begin(), clock.time_s.end(), start->time.in_seconds());
  if (after == clock.time_s.begin()) return {};
  return {static_cast<std::size_t>(after - clock.time_s.begin()) - 1};
}

}  // namespace

Result<FilmMotion> film_motion(const pose::Track& track, std::optional<double> stated_rate_hz,
                               std::string_view kind) {
  auto clock = clock_of(track, stated_rate_hz);
  if (!clock) return clock.error();
  auto smoothed = smooth(track, *clock);
  auto swing = find_swing(smoothed, track.view, kind);
  const double rate_hz = 1 / clock->step_s;
  const auto start = swing ? std::optional(start_of(*swing, *clock)) : std::nullopt;
  auto still = still_address(track, rate_hz, start);
  if (!still) return std::move(still.error());

  FilmMotion out{*std::move(still), *std::move(clock), std::move(smoothed), std::move(swing), {}};
  const auto add = [&](const std::vector<Message>& notes) {
    out.notes.insert(out.notes.end(), notes.begin(), notes.end());
  };
  add(out.clock.notes);
  add(out.track.notes);
  add(out.address.notes);
  if (out.swing) add(out.swing->notes);
  return out;
}

}  // namespace rangecheck::motion
