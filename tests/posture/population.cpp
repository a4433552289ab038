// SPDX-License-Identifier: MIT
#include "posture/population.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

namespace rangecheck::test {
namespace {

double share(double part, int of) { return of > 0 ? part / of : 0; }

}  // namespace

double Performance::seen_share() const { return share(seen, tried); }
double Performance::rms() const { return std::sqrt(share(squared_error, seen)); }
double Performance::coverage() const { return share(covered, seen); }
double Performance::mean_uncertainty() const { return share(uncertainty, seen); }

Performance Population::of(const std::string& id) const {
  const auto found = measures.find(id);
  return found == measures.end() ? Performance{} : found->second;
}

Performance Population::all() const {
  Performance out;
  for (const auto& [id, each] : measures) {
    out.tried += each.tried;
    out.seen += each.seen;
    out.covered += each.covered;
  }
  return out;
}

samples::Options options_for(std::uint64_t seed, Films films) {
  using samples::Setup;
  constexpr std::array setups{Setup::iron, Setup::driver, Setup::wedge};
  samples::Options options;
  options.age = seed % 10 == 9 ? samples::Age::junior : samples::Age::adult;
  options.setup = setups[seed % setups.size()];
  options.family = seed % 2 == 0 ? samples::Family::neutral : samples::Family::preset;
  if (films == Films::face_on) options.views = {samples::View::face_on};
  if (films == Films::down_the_line) options.views = {samples::View::down_the_line};
  return options;
}

void hold(const measure::Measurement& measured, double truth_si, Performance& performance) {
  const measure::Rule& rule = *measured.rule;
  ++performance.tried;
  if (measured.not_seen) return;
  const double error = error_of(measured, truth_si);
  ++performance.seen;
  performance.covered += std::abs(error) <= 1.96 * measured.standard_uncertainty;
  performance.error += displayed(rule, error);
  performance.squared_error += std::pow(displayed(rule, error), 2);
  performance.uncertainty += displayed(rule, measured.standard_uncertainty);
}

void hold(const Result<posture::Posture>& posture, const samples::Points& truth,
          Population& population) {
  ++population.golfers;
  if (refused(posture)) {
    ++population.refused;
    return;
  }
  for (const auto& measured : measure::measure_all(*posture)) {
    const auto value = truth_of(*measured.rule, truth);
    if (value) hold(measured, *value, population.measures[std::string(measured.rule->id)]);
  }
}

Population run_population(Films films, std::uint64_t first, int count, const Trial& trial) {
  Population out;
  for (int i = 0; i < count; ++i) {
    const std::uint64_t seed = first + static_cast<std::uint64_t>(i);
    samples::Options options = options_for(seed, films);
    if (trial.vary) trial.vary(options);
    const samples::Drawn drawn = samples::draw(seed, options);
    posture::Evidence evidence = evidence_of(drawn, seed);
    if (trial.tell) trial.tell(drawn, evidence);
    hold(posture::estimate_address(evidence), drawn.golfer.points, out);
  }
  return out;
}

std::string table(const Population& population) {
  std::string out = fmt::format("{} golfers, {} refused\n{:28} {:>6} {:>8} {:>8} {:>8} {:>9}\n",
                                population.golfers, population.refused, "measure", "seen %", "RMS",
                                "mean", "mean u", "inside %");
  for (const auto* rule : measure::catalogue()) {
    const Performance p = population.of(std::string(rule->id));
    if (p.tried == 0) continue;
    if (p.seen == 0) {
      out +=
          fmt::format("{:28} {:6.1f} {:>8} {:>8} {:>8} {:>9}\n", rule->id, 0.0, "-", "-", "-", "-");
      continue;
    }
    out += fmt::format("{:28} {:6.1f} {:8.2f} {:8.2f} {:8.2f} {:9.1f}\n", rule->id,
                       100 * p.seen_share(), p.rms(), p.error / p.seen, p.mean_uncertainty(),
                       100 * p.coverage());
  }
  return out;
}

}  // namespace rangecheck::test
