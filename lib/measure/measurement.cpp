// SPDX-License-Identifier: MIT
#include "measure/measurement.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "measure/own_measure.hpp"

namespace rangecheck::measure {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;
using posture::Posture;

/// A point that a rule lacks: now, or only the same point at address.
struct Lack {
  LandmarkId id;
  bool only_at_address = false;
};

/// Where each coordinate of the points a rule needs is in the posture's mean, or the points that
/// the posture does not have.
struct Wanted {
  std::vector<Index> coordinates;
  std::vector<Lack> absent;
};

Wanted wanted(const Rule& rule, const Posture& posture) {
  Wanted out;
  const auto add = [&out](std::size_t point) {
    for (Index axis = 0; axis < 3; ++axis) {
      out.coordinates.push_back(3 * static_cast<Index>(point) + axis);
    }
  };
  for (const LandmarkId id : rule.needs) {
    if (const auto point = posture.find(id)) {
      add(*point);
    } else {
      out.absent.push_back({id});
    }
  }
  for (const LandmarkId id : rule.address_needs) {
    if (const auto point = posture.find_at_address(id)) {
      add(*point);
    } else if (posture.find(id)) {
      out.absent.push_back({id, true});
    }
  }
  return out;
}

std::optional<double> apply(const Rule& rule, const VectorXd& stacked) {
  std::vector<Point> points(rule.needs.size() + rule.address_needs.size());
  for (std::size_t i = 0; i < points.size(); ++i) {
    points[i] = stacked.segment<3>(3 * static_cast<Index>(i));
  }
  return rule.primitive != nullptr ? evaluate(rule, points) : rule.measure(points);
}

Codomain codomain(const Rule& rule) {
  if (rule.magnitude) return Codomain::magnitude;
  return rule.dimension == Dimension::angle ? Codomain::circle : Codomain::line;
}

std::optional<Propagated> propagate_at(const Rule& rule, const Posture& posture,
                                       const std::vector<Index>& at, const MatrixXd& covariance) {
  const auto f = [&rule](const VectorXd& stacked) { return apply(rule, stacked); };
  return propagate(f, posture.mean(at), covariance(at, at), codomain(rule));
}

/// "lead heel, trail heel and ball at address".
Argument named(const std::vector<Lack>& lacks) {
  std::vector<Message> each;
  for (const auto& [id, only_at_address] : lacks) {
    const Message point = name_as_message(id);
    each.push_back(only_at_address ? Message{"reason.at-address", {said("point", point)}} : point);
  }
  return {"points", std::move(each)};
}

/// What a person can do so that this landmark is there.
Message how_to_show(LandmarkId id) {
  switch (id.joint) {
    case Joint::ball:
      return {"remedy.mark-ball"};
    case Joint::grip_end:
    case Joint::hands_mid:
    case Joint::shaft_mid:
    case Joint::hosel:
    case Joint::club_toe:
      return {"remedy.club-points"};
    case Joint::mid_spine:
    case Joint::pelvis:
    case Joint::neck:
    case Joint::head_top:
      return {"remedy.other-estimator", {said("point", name_as_message(id))}};
    default:
      if (id.joint >= Joint::thumb_1) return {"remedy.hands-close"};
      return {"remedy.in-plain-sight", {said("point", name_as_message(id))}};
  }
}

NotSeen absent(const std::vector<Lack>& lacks) {
  return {{"reason.nothing-shows", {named(lacks)}}, how_to_show(lacks.front().id)};
}

std::vector<Lack> without_evidence(const Rule& rule, const Posture& posture) {
  std::vector<Lack> out;
  for (const LandmarkId id : rule.needs) {
    if (std::ranges::find(posture.evidenced, id) == posture.evidenced.end()) out.push_back({id});
  }
  return out;
}

/// Only a film can show a point that nothing shows: facts narrow what is there.
bool is_film(posture::Observation observation) {
  return observation == posture::Observation::face_on_film ||
         observation == posture::Observation::down_the_line_film;
}

/// Is this narrow enough to be called seen, and mostly from evidence?
bool narrow_enough(const Rule& rule, double uncertainty, double prior_uncertainty) {
  return uncertainty <= rule.seen_limit_si && uncertainty <= prior_uncertainty / 2;
}

/// The missing observation that would narrow the value most, and how far.
struct Best {
  std::optional<posture::Observation> observation;
  double uncertainty = 0;
};

Best best_observation(const Rule& rule, const Posture& posture, const std::vector<Index>& at,
                      double uncertainty) {
  Best best{std::nullopt, uncertainty};
  for (std::size_t i = 0; i < posture.missing.size() && i < posture.covariance_with.size(); ++i) {
    const auto with = propagate_at(rule, posture, at, posture.covariance_with[i]);
    if (with && with->standard_uncertainty < best.uncertainty) {
      best = {posture.missing[i], with->standard_uncertainty};
    }
  }
  return best;
}

Message remedy_of(const Rule& rule, const Best& best, double uncertainty,
                  double prior_uncertainty) {
  // Less than a tenth narrower is not worth anyone's trouble.
  if (!best.observation || best.uncertainty > 0.9 * uncertainty) return {"remedy.none-is-enough"};
  Message advice = posture::advice(*best.observation);
  if (narrow_enough(rule, best.uncertainty, prior_uncertainty)) return advice;
  return {"remedy.most-from", {said("advice", std::move(advice))}};
}

/// "12 deg", "2.1 in", "0.15": as many figures as an uncertainty deserves.
std::string shown(double si, Dimension dimension) {
  const Unit& unit = display_unit(dimension);
  const double number = in_unit({si, dimension}, unit);
  const auto text = number < 10 ? fmt::format("{:.2g}", number) : fmt::format("{:.0f}", number);
  return unit.symbol.empty() ? text : fmt::format("{} {}", text, unit.symbol);
}

Message too_wide(const Rule& rule, double uncertainty) {
  if (uncertainty <= rule.seen_limit_si) return {"reason.any-golfer"};
  const auto known = shown(uncertainty, rule.dimension);
  const auto needed = shown(rule.seen_limit_si, rule.dimension);
  if (known == needed) return {"reason.little-too-wide", {{"needed", needed}}};
  return {"reason.too-wide", {{"known", known}, {"needed", needed}}};
}

const Message faster_film{"remedy.faster-film"};

/// Where each moment that a rule needs is in the timeline, or why the first one missing is.
struct WantedTimes {
  std::vector<Index> at;
  std::optional<NotSeen> absent;
};

WantedTimes wanted_times(const Rule& rule, const Timeline& timeline) {
  WantedTimes out;
  for (const Moment moment : rule.moments) {
    const auto found = std::ranges::find(timeline.moments, moment);
    if (found != timeline.moments.end()) {
      out.at.push_back(found - timeline.moments.begin());
      continue;
    }
    const auto why = std::ranges::find(timeline.absent, moment, &Timeline::Absent::moment);
    out.absent = why != timeline.absent.end()
                     ? NotSeen{why->reason, why->remedy}
                     : NotSeen{{"reason.no-moment"}, {"remedy.whole-swing"}};
    return out;
  }
  return out;
}

Measurement measure_time(const Rule& rule, const Timeline& timeline) {
  Measurement out;
  out.rule = &rule;
  out.position = std::nullopt;
  // Nothing is known of a golfer's times beforehand, so that all of it is evidence.
  out.prior_uncertainty = std::numeric_limits<double>::infinity();
  const auto [at, missing] = wanted_times(rule, timeline);
  if (missing) {
    out.not_seen = missing;
    return out;
  }
  const auto f = [&rule](const VectorXd& times_s) {
    return rule.measure_times({times_s.data(), static_cast<std::size_t>(times_s.size())});
  };
  const auto found = propagate(f, timeline.time_s(at), timeline.covariance(at, at), Codomain::line);
  if (!found) {
    out.not_seen = NotSeen{{"reason.moments-coincide"}, faster_film};
    return out;
  }
  out.value = found->value;
  out.standard_uncertainty = found->standard_uncertainty;
  if (out.standard_uncertainty > rule.seen_limit_si) {
    out.not_seen = NotSeen{too_wide(rule, out.standard_uncertainty), faster_film};
  }
  return out;
}

}  // namespace

std::optional<Propagated> propagate(const Rule& rule, const Posture& posture,
                                    const MatrixXd& covariance) {
  const Wanted points = wanted(rule, posture);
  if (!points.absent.empty()) return std::nullopt;
  return propagate_at(rule, posture, points.coordinates, covariance);
}

namespace {

Measurement measured(const Rule& rule, const Posture& posture) {
  Measurement out;
  out.rule = &rule;
  const Wanted points = wanted(rule, posture);
  if (!points.absent.empty()) {
    out.not_seen = absent(points.absent);
    return out;
  }
  const auto& at = points.coordinates;
  const auto found = propagate_at(rule, posture, at, posture.covariance);
  const auto prior = propagate_at(rule, posture, at, posture.prior_covariance);
  if (!found || !prior) {
    out.not_seen = NotSeen{{"reason.points-coincide"}, {"remedy.again"}};
    return out;
  }
  out.value = found->value;
  out.standard_uncertainty = found->standard_uncertainty;
  out.prior_uncertainty = prior->standard_uncertainty;
  const auto hidden = without_evidence(rule, posture);
  if (hidden.empty() && narrow_enough(rule, out.standard_uncertainty, out.prior_uncertainty)) {
    return out;
  }
  const Best best = best_observation(rule, posture, at, out.standard_uncertainty);
  if (hidden.empty()) {
    out.not_seen = NotSeen{too_wide(rule, out.standard_uncertainty),
                           remedy_of(rule, best, out.standard_uncertainty, out.prior_uncertainty)};
  } else {
    const bool film_helps = best.observation && is_film(*best.observation) &&
                            narrow_enough(rule, best.uncertainty, out.prior_uncertainty);
    out.not_seen =
        NotSeen{{"reason.nothing-shows", {named(hidden)}},
                film_helps ? posture::advice(*best.observation) : how_to_show(hidden.front().id)};
  }
  return out;
}

}  // namespace

Measurement measure(const Rule& rule, const Posture& posture) {
  Measurement out = measured(rule, posture);
  // No film of a whole golfer shows hands well enough; what is wanted is an eye.
  if (out.not_seen && rule.region == Region::grip) {
    out.not_seen->remedy = {"remedy.hands-by-eye", {{"rule", std::string(rule.id)}}};
  }
  return out;
}

std::vector<Measurement> measure_all(const Posture& posture, Position position,
                                     std::span<const Rule* const> own) {
  std::vector<Measurement> out;
  for (const auto rules : {catalogue(), own}) {
    for (const Rule* rule : rules) {
      if (rule->is_timing() || !rule->at.has(position)) continue;
      out.push_back(measure(*rule, posture));
      out.back().position = position;
    }
  }
  return out;
}

std::vector<Measurement> measure_times(const Timeline& timeline) {
  std::vector<Measurement> out;
  for (const Rule* rule : catalogue()) {
    if (rule->is_timing()) out.push_back(measure_time(*rule, timeline));
  }
  return out;
}

}  // namespace rangecheck::measure
