// SPDX-License-Identifier: MIT
#include "inbox/swing_seen.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "measure/rotation.hpp"
#include "motion/align.hpp"

namespace rangecheck::inbox {
namespace {

using motion::PositionTime;

/// Moments between top and shaft parallel through at which the body is estimated to follow its
/// turns, at most; fewer when the films have fewer frames.
constexpr std::size_t most_turn_moments = 16;
/// Before the top and after the shaft lies level: greatest speeds lie within.
constexpr double turn_margin_s = 0.05;

const Message whole_swing{"remedy.whole-swing"};

/// Why the body could not be estimated at a position that a film shows.
grade::PositionNotFound not_estimated(Position position, const Error& error) {
  if (error.fault == Fault::disagreement)
    return {position, {"reason.no-body-fits"}, {"remedy.one-golfer"}};
  return {position, {"reason.few-landmarks"}, {"remedy.whole-body-swing"}};
}

class SwingView {
 public:
  SwingView(std::span<const Filmed> films, const Swings& swings, const posture::Carried& carried,
            std::span<const measure::Rule* const> own)
      : films_(films),
        swings_(swings.of_film),
        one_swing_(swings.one_swing),
        carried_(carried),
        own_(own) {}

  SwingSeen see() {
    for (const Position position : all_positions)
      if (position != Position::address) see_position(position);
    const auto of_times = measure::measure_times(timeline());
    out_.measured.insert(out_.measured.end(), of_times.begin(), of_times.end());
    return std::move(out_);
  }

 private:
  const std::optional<PositionTime::Found>* found(std::size_t film, Position position) const {
    if (!swings_[film]) return nullptr;
    const auto& at = (*swings_[film])[position].found;
    return at ? &at : nullptr;
  }

  /// The film at a moment of its own clock.
  motion::Instant instant(std::size_t film, Duration time, Duration u) const {
    motion::Instant out = films_[film].motion.track.at(time, u);
    if (const auto& space = films_[film].space) out.spatial = space->at(time);
    return out;
  }

  void see_position(Position position) {
    posture::PositionEvidence evidence{
        .phase = static_cast<double>(index_of(position)), .views = {}, .same_swing = one_swing_};
    bool any = false;
    for (std::size_t film = 0; film < films_.size(); ++film) {
      const auto* at = found(film, position);
      evidence.views.push_back(
          at ? std::optional(instant(film, (*at)->time, (*at)->standard_uncertainty))
             : std::nullopt);
      if (!at) continue;
      any = true;
      out_.positions.push_back({.position = position,
                                .view = films_[film].address.view,
                                .time_s = (*at)->time.in_seconds(),
                                .standard_uncertainty_s = (*at)->standard_uncertainty.in_seconds(),
                                .frame = films_[film].frame_at((*at)->time),
                                .from_club = (*at)->from_club});
    }
    if (!any) {
      out_.not_found.push_back(why_not_found(position));
      return;
    }
    const auto posture = posture::estimate_position(carried_, evidence);
    if (!posture) {
      out_.not_found.push_back(not_estimated(position, posture.error()));
      return;
    }
    for (auto& each : measure::measure_all(*posture, position, own_))
      out_.measured.push_back(std::move(each));
  }

  grade::PositionNotFound why_not_found(Position position) const {
    for (const auto& swing : swings_)
      if (swing) return {position, (*swing)[position].reason, (*swing)[position].remedy};
    return {position, {"reason.no-swing"}, whole_swing};
  }

  /// The film whose times are told: the one that knows best how long the downswing took.
  std::optional<std::size_t> film_for_times() const {
    std::optional<std::size_t> best;
    double best_u_s = 0;
    for (std::size_t film = 0; film < films_.size(); ++film) {
      const auto *top = found(film, Position::top), *impact = found(film, Position::impact);
      if (!top || !impact) continue;
      const double u_s = std::hypot((*top)->standard_uncertainty.in_seconds(),
                                    (*impact)->standard_uncertainty.in_seconds());
      if (best && best_u_s <= u_s) continue;
      best = film;
      best_u_s = u_s;
    }
    return best;
  }

  measure::Timeline timeline() const {
    measure::Timeline out;
    std::vector<double> time_s, u_s;
    const auto film = film_for_times();
    const auto add = [&](measure::Moment moment, Duration time, Duration u) {
      out.moments.push_back(moment);
      time_s.push_back(time.in_seconds());
      u_s.push_back(u.in_seconds());
    };
    for (const Position position : all_positions) {
      const auto* at = film ? found(*film, position) : nullptr;
      if (at) {
        add(measure::moment_of(position), (*at)->time, (*at)->standard_uncertainty);
        continue;
      }
      auto why = why_not_found(position);
      out.absent.push_back(
          {measure::moment_of(position), std::move(why.reason), std::move(why.remedy)});
    }
    const auto peaks = film ? turns(*film) : no_turns();
    for (std::size_t i = 0; i < peaks.size(); ++i) {
      if (peaks[i].peak) {
        add(measure::peak_moments[i], peaks[i].peak->time, peaks[i].peak->standard_uncertainty);
      } else {
        out.absent.push_back({measure::peak_moments[i], peaks[i].reason, peaks[i].remedy});
      }
    }
    out.time_s = Eigen::Map<const Eigen::VectorXd>(time_s.data(), std::ssize(time_s));
    out.covariance =
        Eigen::Map<const Eigen::VectorXd>(u_s.data(), std::ssize(u_s)).cwiseAbs2().asDiagonal();
    return out;
  }

  static std::array<measure::PeakFound, 4> no_turns() {
    std::array<measure::PeakFound, 4> out;
    out.fill({std::nullopt, {"reason.no-top-or-impact"}, whole_swing});
    return out;
  }

  /// The phase (posture/position.hpp) of a moment of the film's clock between positions.
  double phase_at(std::size_t film, double time_s) const {
    double before_s = 0, phase = static_cast<double>(index_of(Position::top));
    bool first = true;
    for (const Position position : all_positions) {
      const auto* at = found(film, position);
      if (!at) continue;
      const double at_s = (*at)->time.in_seconds();
      const auto number = static_cast<double>(index_of(position));
      if (at_s >= time_s) {
        if (first) return number;
        return phase + (number - phase) * (time_s - before_s) / (at_s - before_s);
      }
      before_s = at_s;
      phase = number;
      first = false;
    }
    return phase;
  }

  /// The body at moments evenly spread over the way down.
  std::array<measure::PeakFound, 4> turns(std::size_t film) const {
    const double from_s = (*found(film, Position::top))->time.in_seconds() - turn_margin_s;
    const auto* through = found(film, Position::shaft_parallel_through);
    const double impact_s = (*found(film, Position::impact))->time.in_seconds();
    const double to_s = (through ? (*through)->time.in_seconds() : impact_s) + turn_margin_s;
    const double step_s = films_[film].motion.track.step_s;
    const auto count = std::min(most_turn_moments,
                                static_cast<std::size_t>(std::max(0.0, (to_s - from_s) / step_s)));
    std::vector<double> time_s;
    std::vector<posture::Posture> postures;
    for (std::size_t i = 0; i < count; ++i) {
      const double at_s =
          from_s + (to_s - from_s) * static_cast<double>(i) / static_cast<double>(count - 1);
      auto posture = posture::estimate_position(carried_, evidence_at(film, at_s));
      if (!posture) continue;
      time_s.push_back(at_s);
      postures.push_back(*std::move(posture));
    }
    return measure::rotation_peaks(time_s, postures);
  }

  posture::PositionEvidence evidence_at(std::size_t film, double time_s) const {
    const auto time = Duration::seconds(time_s);
    posture::PositionEvidence out{
        .phase = phase_at(film, time_s), .views = {}, .same_swing = one_swing_};
    for (std::size_t other = 0; other < films_.size(); ++other) {
      std::optional<Duration> there;
      if (other == film) {
        there = time;
      } else if (swings_[other]) {
        there = motion::same_phase(*swings_[film], *swings_[other], time);
      }
      out.views.push_back(there ? std::optional(instant(other, *there, {})) : std::nullopt);
    }
    return out;
  }

  std::span<const Filmed> films_;
  const std::vector<std::optional<motion::Swing>>& swings_;
  bool one_swing_;
  const posture::Carried& carried_;
  std::span<const measure::Rule* const> own_;
  SwingSeen out_;
};

}  // namespace

Swings lay_side_by_side(std::span<const Filmed> films, bool said_same) {
  Swings out;
  for (const auto& film : films) out.of_film.push_back(film.motion.swing);
  if (films.size() != 2) return out;
  if (!out.of_film[0] || !out.of_film[1]) {
    out.one_swing = said_same;  // nothing speaks against it
    return out;
  }
  auto alignment = motion::align(*out.of_film[0], *out.of_film[1], said_same);
  out.one_swing = alignment.one_swing;
  for (std::size_t i = 0; i < out.of_film.size(); ++i)
    out.of_film[i] = std::move(alignment.swings[i]);
  out.notes = std::move(alignment.notes);
  return out;
}

SwingSeen see_swing(std::span<const Filmed> films, const Swings& swings,
                    const posture::Carried& carried, std::span<const measure::Rule* const> own) {
  return SwingView(films, swings, carried, own).see();
}

}  // namespace rangecheck::inbox
