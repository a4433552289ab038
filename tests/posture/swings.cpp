// SPDX-License-Identifier: MIT
#include "posture/swings.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>

#include "drawn_film.hpp"
#include "motion/space_track.hpp"
#include "pose/golfer.hpp"
#include "posture/space_films.hpp"

namespace rangecheck::test {
namespace {

/// One film followed and smoothed.
struct Seen {
  posture::ViewEvidence address;
  motion::FilmMotion motion;
  std::optional<motion::SpaceTrack> space;

  motion::Instant at(Duration time, Duration u = {}) const {
    motion::Instant out = motion.track.at(time, u);
    if (space) out.spatial = space->at(time);
    return out;
  }
};

std::optional<Seen> seen_of(const intake::FilmedView& film, double rate_hz) {
  const auto track = pose::follow_golfer(film);
  if (!track) return std::nullopt;
  auto motion = motion::film_motion(*track, rate_hz, "full");
  if (!motion) return std::nullopt;
  posture::ViewEvidence address{.view = film.view,
                                .estimator = film.film.estimator,
                                .image = *film.film.image,
                                .space = film.film.space,
                                .picture_is_drawn = film.film.picture_is_drawn,
                                .still = motion->address,
                                .ball = film.ball,
                                .target_line = film.target_line,
                                .camera = film.camera};
  Seen out{std::move(address), *std::move(motion), std::nullopt};
  if (posture::space_counts(out.address)) out.space = smooth_space(*track, out.motion.clock);
  return out;
}

/// The film at a position, or nothing where it does not show it. `true_s` is its true moment.
std::optional<motion::Instant> instant_of(const Seen& seen, Position position,
                                          std::optional<double> true_s, Moments moments) {
  if (moments == Moments::true_ones) {
    if (!true_s) return std::nullopt;
    return seen.at(Duration::seconds(*true_s));
  }
  if (!seen.motion.swing) return std::nullopt;
  const auto& found = (*seen.motion.swing)[position].found;
  if (!found) return std::nullopt;
  return seen.at(found->time, found->standard_uncertainty);
}

samples::SwingOptions swing_options_for(std::uint64_t seed, const SwingTrial& trial) {
  samples::SwingOptions options;
  options.base = options_for(seed, trial.films);
  options.rate_hz = 60;
  options.base.detector.skeleton =
      seed % 2 == 0 ? samples::Skeleton::points_33 : samples::Skeleton::points_25;
  if (trial.vary) trial.vary(options);
  return options;
}

/// All films of one submission.
struct Swing {
  posture::Evidence evidence;
  std::vector<Seen> films;
  std::vector<PositionMap<double>> true_s;  ///< of each film's clock
  bool whole = true;                        ///< every film could be read

  void add(const intake::FilmedView& film, double rate_hz) {
    auto seen = seen_of(film, rate_hz);
    whole = whole && seen;
    if (!seen) return;
    evidence.views.push_back(seen->address);
    films.push_back(*std::move(seen));
  }
};

void hold(const posture::Posture& posture, Position position, const samples::Points& now,
          const samples::Points& at_address, Population& population) {
  for (const auto& measured : measure::measure_all(posture, position)) {
    const auto truth = truth_of(*measured.rule, now, at_address);
    if (!truth) continue;
    hold(measured, *truth, population.measures[measure::check_id(measured.rule->id, position)]);
  }
}

void hold(const Swing& swing, Moments moments, const samples::Points& at_address,
          const PositionMap<samples::Points>& at_event, Population& population) {
  ++population.golfers;
  const auto address = swing.whole ? posture::estimate_address_to_carry(swing.evidence)
                                   : Result<posture::AddressEstimate>(Error{});
  if (!address) {
    ++population.refused;
    return;
  }
  for (const Position position : all_positions) {
    if (position == Position::address || !at_event.has(position)) continue;
    posture::PositionEvidence at{.phase = static_cast<double>(index_of(position)),
                                 .views = {},
                                 .same_swing = swing.evidence.same_swing};
    for (std::size_t v = 0; v < swing.films.size(); ++v)
      at.views.push_back(instant_of(swing.films[v], position, swing.true_s[v][position], moments));
    const auto posture = posture::estimate_position(*address->carried, at);
    if (posture) hold(*posture, position, *at_event[position], at_address, population);
  }
}

/// True joints between two frames of a truth file.
samples::Points points_between(const nlohmann::json& joints_m, double frame) {
  const auto last = static_cast<double>(joints_m.size() - 1);
  const auto low = static_cast<std::size_t>(std::clamp(frame, 0.0, last - 1));
  const double share = frame - static_cast<double>(low);
  const samples::Points a = points_of(joints_m[low]), b = points_of(joints_m[low + 1]);
  samples::Points out = a;
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const LandmarkId id = landmark_at(i);
    if (a[id] && b[id]) out[id] = (1 - share) * *a[id] + share * *b[id];
  }
  return out;
}

}  // namespace

intake::FilmedView marked_film_of(const samples::FilmedSwing& truth) {
  intake::FilmedView out = film_of(truth);
  out.ball = intake::ImagePoint{truth.marked.ball_px.x(), truth.marked.ball_px.y()};
  return out;
}

std::optional<double> truth_of(const measure::Rule& rule, const samples::Points& now,
                               const samples::Points& at_address) {
  std::vector<measure::Point> given;
  for (const LandmarkId id : rule.needs) {
    if (!now.has(id)) return std::nullopt;
    given.push_back(*now[id]);
  }
  for (const LandmarkId id : rule.address_needs) {
    if (!at_address.has(id)) return std::nullopt;
    given.push_back(*at_address[id]);
  }
  return rule.measure(given);
}

Population run_swings(const SwingTrial& trial, std::uint64_t first, int count) {
  Population out;
  for (int i = 0; i < count; ++i) {
    const std::uint64_t seed = first + static_cast<std::uint64_t>(i);
    const samples::SwingOptions options = swing_options_for(seed, trial);
    const samples::DrawnSwing drawn = samples::draw_swing(seed, options);
    Swing swing;
    swing.evidence.stature = Length::centimetres(std::round(drawn.golfer.body.stature_m * 100));
    swing.evidence.same_swing = options.base.same_swing;
    for (const auto& truth : drawn.films) {
      intake::FilmedView film =
          trial.space ? space_film_of(truth, *trial.space, seed) : marked_film_of(truth);
      if (!trial.space && options.base.detector.skeleton == samples::Skeleton::points_33)
        film.film.estimator = intake::Estimator::points_33;
      swing.add(film, options.rate_hz);
      swing.true_s.push_back(truth.event_s);
    }
    hold(swing, trial.moments, drawn.golfer.points, drawn.mean_at_event, out);
  }
  return out;
}

void hold_film(const std::filesystem::path& folder, Films films, Moments moments,
               Population& population,
               const std::function<intake::FilmedView(intake::FilmedView)>& change) {
  const auto submission = intake::read_submission({folder.filename().string(), {}, folder}, {});
  std::ifstream file(folder / "truth.json");
  if (!submission || !file) return;
  const auto truth = nlohmann::json::parse(file);
  const double rate_hz = truth["frame_rate"];
  const auto& joints = truth["joints_m"];
  PositionMap<double> true_s;
  PositionMap<samples::Points> at_event;
  for (const auto& [alias, frame] : truth["event_frame"].items()) {
    const Position position = *find_position(alias);
    true_s[position] = frame.get<double>() / rate_hz;
    at_event[position] = points_between(joints, frame);
  }
  Swing swing;
  swing.evidence.stature = submission->golfer.stature;
  swing.evidence.foot = submission->golfer.foot;
  swing.evidence.same_swing = submission->same_swing;
  for (const auto& film : submission->views) {
    if (films == Films::face_on && film.view != intake::View::face_on) continue;
    if (films == Films::down_the_line && film.view != intake::View::down_the_line) continue;
    swing.add(change ? change(film) : film, rate_hz);
    swing.true_s.push_back(true_s);
  }
  hold(swing, moments, points_of(joints[0]), at_event, population);
}

std::string swing_table(const Population& population) {
  std::string out = fmt::format("{} swings, {} refused\n{:48} {:>6} {:>8} {:>8} {:>8} {:>9}\n",
                                population.golfers, population.refused, "measure", "seen %", "RMS",
                                "mean", "mean u", "inside %");
  for (const Position position : all_positions) {
    for (const auto* rule : measure::catalogue()) {
      if (position == Position::address || !rule->at.has(position)) continue;
      const std::string id = measure::check_id(rule->id, position);
      const Performance p = population.of(id);
      if (p.tried == 0) continue;
      if (p.seen == 0) {
        out += fmt::format("{:48} {:6.1f}\n", id, 0.0);
        continue;
      }
      out +=
          fmt::format("{:48} {:6.1f} {:8.2f} {:8.2f} {:8.2f} {:9.1f}\n", id, 100 * p.seen_share(),
                      p.rms(), p.error / p.seen, p.mean_uncertainty(), 100 * p.coverage());
    }
  }
  return out;
}

}  // namespace rangecheck::test
