// SPDX-License-Identifier: MIT
#include "motion/swing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "motion/moments.hpp"
#include "motion/search.hpp"
#include "motion/signals.hpp"

namespace rangecheck::motion {
namespace {

using enum Position;

/// Positions that are no farther apart than this are one moment told twice: the later one moves.
constexpr double least_apart_s = 0.001;
/// Longer than this a backswing or downswing lasts only in slow motion; from memory.
constexpr double slow_back_s = 2, slow_down_s = 0.8;

const Message start_earlier{"remedy.start-earlier"};
const Message film_longer{"remedy.film-longer"};

/// The club where it is seen, hands and arms elsewhere.
Guesses best_of(const Guesses& hands, const Guesses& club) {
  Guesses out;
  for (const Position position : all_positions)
    out[position] = club[position] ? club[position] : hands[position];
  return out;
}

/// Times rise: from impact and the top outward, what is out of order moves past its neighbour and
/// is as unsure as that far.
void put_in_order(Guesses& times) {
  std::optional<Guess> before;
  for (const Position position : all_positions) {
    auto& each = times[position];
    if (!each) continue;
    if (before && each->time_s < before->time_s + least_apart_s) {
      const double moved_s = before->time_s + least_apart_s - each->time_s;
      each->time_s += moved_s;
      each->u_s = std::hypot(each->u_s, moved_s / 2);
    }
    before = each;
  }
}

struct Why {
  Message reason, remedy;
};

/// Why a position has no time.
Why why_not(Position position, const Movement& movement, Reach reach, std::string_view kind) {
  if (!movement.rest && position <= top) {
    return {{"reason.begins-midway"}, start_earlier};
  }
  if (movement.ends_early && position > top) {
    return {{"reason.ends-midway"}, film_longer};
  }
  if (position == finish) {
    return {{"reason.ends-before-rest"}, film_longer};
  }
  if (reach != Reach::full) {
    return {{"reason.short-swing", {said("swing", {"swings." + std::string(kind)})}},
            {"remedy.nothing-to-mend"}};
  }
  return {{"reason.no-hands-nor-club"}, {"remedy.hands-and-club"}};
}

std::vector<Message> notes_of(const Signals& signals, const std::vector<Movement>& movements,
                              std::size_t real) {
  std::vector<Message> out;
  for (std::size_t i = 0; i < movements.size(); ++i) {
    if (i == real) continue;
    const double at_s = signals.time_s(static_cast<double>(movements[i].top));
    out.push_back({i < real ? "swing.practice" : "swing.another", {{"at", Number{at_s, 1}}}});
  }
  return out;
}

}  // namespace

std::optional<Swing> find_swing(const SmoothTrack& track, intake::View view,
                                std::string_view kind) {
  const auto signals = signals_of(track);
  if (!signals) return std::nullopt;
  const Reach reach = reach_of(kind);
  const auto movements = movements_like_swings(*signals, view, reach);
  if (movements.empty()) return std::nullopt;
  const std::size_t real = real_one(movements);
  const Movement& movement = movements[real];

  const Guesses hands = moments_of_hands(*signals, view, reach, movement);
  Guesses times = best_of(hands, moments_of_club(*signals, view, movement, hands));
  put_in_order(times);

  Swing out;
  for (const Position position : all_positions) {
    auto& each = out[position];
    const auto& time = times[position];
    const double last_s = signals->time_s(static_cast<double>(signals->samples - 1));
    if (time && time->time_s >= signals->start_s && time->time_s <= last_s) {
      each.found = PositionTime::Found{Duration::seconds(time->time_s),
                                       Duration::seconds(time->u_s), time->from_club};
    } else {
      auto why = why_not(position, movement, reach, kind);
      each.reason = std::move(why.reason);
      each.remedy = std::move(why.remedy);
    }
  }
  out.notes = notes_of(*signals, movements, real);
  const auto between_s = [&](Position a, Position b) {
    return times[a] && times[b] ? times[b]->time_s - times[a]->time_s : 0;
  };
  if (between_s(address, top) > slow_back_s || between_s(top, impact) > slow_down_s) {
    out.notes.push_back({"swing.slow"});
  }
  return out;
}

}  // namespace rangecheck::motion
