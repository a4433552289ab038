// SPDX-License-Identifier: MIT
#include "motion/align.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace rangecheck::motion {
namespace {

using Found = PositionTime::Found;

/// Two positions in common make one time between them, which two swings of one golfer share.
constexpr std::size_t least_common = 3;

/// 95 % quantiles of chi-square for 1 to 9 degrees of freedom: NIST/SEMATECH e-Handbook of
/// Statistical Methods, 1.3.6.7.4.
constexpr std::array<double, position_count - 1> chi_square_95{
    3.841, 5.991, 7.815, 9.488, 11.070, 12.592, 14.067, 15.507, 16.919};

/// No time is surer than this, a tenth of a millisecond: keeps weights finite.
constexpr double surest_s = 1e-4;

double variance_s2(const Found& found) {
  const double u_s = std::max(found.standard_uncertainty.in_seconds(), surest_s);
  return u_s * u_s;
}

/// One position in both films.
struct Pair {
  double apart_s = 0;  ///< second film's time minus the first's
  double weight = 0;   ///< 1 / variance of that
};

std::vector<Pair> pairs_of(const Swing& first, const Swing& second) {
  std::vector<Pair> out;
  for (const Position position : all_positions) {
    const auto &a = first[position].found, &b = second[position].found;
    if (!a || !b) continue;
    out.push_back(
        {b->time.in_seconds() - a->time.in_seconds(), 1 / (variance_s2(*a) + variance_s2(*b))});
  }
  return out;
}

/// The second clock minus the first, all positions together.
struct Offset {
  double value_s = 0, variance_s2 = 0;
  double chi_square = 0;
  double farthest_s = 0;  ///< of a position from the value
};

/// Generalised least squares. The times between positions share their middle events; taking one
/// unknown offset out of independent differences is the same estimate and the same chi-square,
/// without their full covariance.
Offset offset_of(const std::vector<Pair>& pairs) {
  double weights = 0, sum = 0;
  for (const Pair& pair : pairs) {
    weights += pair.weight;
    sum += pair.weight * pair.apart_s;
  }
  if (weights == 0) return {};
  Offset out{.value_s = sum / weights, .variance_s2 = 1 / weights};
  for (const Pair& pair : pairs) {
    const double off_s = pair.apart_s - out.value_s;
    out.chi_square += pair.weight * off_s * off_s;
    out.farthest_s = std::max(out.farthest_s, std::abs(off_s));
  }
  return out;
}

/// A position's moment on the clock of `own`, from both films' times; `ahead_s` brings the other
/// film's clock to this one.
std::optional<Found> merged(const std::optional<Found>& own, const std::optional<Found>& other,
                            double ahead_s, double offset_variance_s2) {
  if (!other) return own;
  const double other_s = other->time.in_seconds() + ahead_s;
  if (!own) {
    return Found{Duration::seconds(other_s),
                 Duration::seconds(std::sqrt(variance_s2(*other) + offset_variance_s2)),
                 other->from_club};
  }
  const double both = 1 / variance_s2(*own) + 1 / variance_s2(*other);
  const double share = 1 / variance_s2(*other) / both;
  const double own_s = own->time.in_seconds();
  return Found{Duration::seconds(own_s + share * (other_s - own_s)),
               Duration::seconds(std::sqrt(1 / both + share * share * offset_variance_s2)),
               own->from_club || other->from_club};
}

/// A later moment that both films show: nothing of one film alone may lie past it.
std::optional<Duration> next_of_both(const Swing& own, const Swing& other, const Swing& merged,
                                     Position position) {
  for (std::size_t i = index_of(position) + 1; i < position_count; ++i) {
    if (own.positions[i].found && other.positions[i].found) return merged.positions[i].found->time;
  }
  return std::nullopt;
}

Swing merged(const Swing& own, const Swing& other, double ahead_s, double offset_variance_s2) {
  Swing out = own;
  for (const Position position : all_positions) {
    const bool had = own[position].found.has_value();
    out[position].found =
        merged(own[position].found, other[position].found, ahead_s, offset_variance_s2);
    if (out[position].found && !had) out[position].reason = out[position].remedy = {};
  }
  // What one film alone shows may not fit between the other's: times rise from one to the next.
  std::optional<Duration> before;
  for (const Position position : all_positions) {
    auto& here = out[position];
    if (!here.found) continue;
    const bool both = own[position].found && other[position].found;
    const auto after = both ? std::nullopt : next_of_both(own, other, out, position);
    if ((before && here.found->time <= *before) || (after && here.found->time >= *after)) {
      here = {{}, {"reason.films-disagree"}, {"remedy.closer-and-higher-rate"}};
      continue;
    }
    before = here.found->time;
  }
  return out;
}

}  // namespace

Alignment align(const Swing& first, const Swing& second, bool said_same) {
  Alignment out;
  out.swings = {first, second};
  const auto pairs = pairs_of(first, second);
  const Offset offset = offset_of(pairs);
  out.chi_square = offset.chi_square;
  out.freedom = pairs.empty() ? 0 : static_cast<double>(pairs.size() - 1);
  if (pairs.size() < least_common) {
    out.notes.push_back(pairs.empty() ? Message{"align.none-common"}
                                      : Message{"align.few-common", {{"count", pairs.size()}}});
    return out;
  }
  out.could_be_one = offset.chi_square <= chi_square_95[pairs.size() - 2];
  if (said_same && !out.could_be_one) {
    out.notes.push_back({"align.two-swings", {{"differ", Number{offset.farthest_s, 2}}}});
  }
  out.one_swing = said_same && out.could_be_one;
  if (!out.one_swing) return out;
  out.offset = Duration::seconds(offset.value_s);
  out.swings = {merged(first, second, -offset.value_s, offset.variance_s2),
                merged(second, first, offset.value_s, offset.variance_s2)};
  return out;
}

std::optional<Duration> same_phase(const Swing& from, const Swing& to, Duration time) {
  std::optional<std::pair<double, double>> before;
  for (const Position position : all_positions) {
    const auto &a = from[position].found, &b = to[position].found;
    if (!a || !b) continue;
    const double from_s = a->time.in_seconds(), to_s = b->time.in_seconds();
    const double at_s = time.in_seconds();
    if (at_s == from_s) return b->time;
    if (at_s < from_s) {
      if (!before) return std::nullopt;
      const double share = (at_s - before->first) / (from_s - before->first);
      return Duration::seconds(before->second + share * (to_s - before->second));
    }
    before = {from_s, to_s};
  }
  return std::nullopt;
}

}  // namespace rangecheck::motion
