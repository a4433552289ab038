// SPDX-License-Identifier: MIT
// For people: how well motion times the positions.
//   events [COUNT [FIRST-SEED]]    made-up swings at four rates, with and without club points
//   events trouble [COUNT]         swings among other movements, cut short, badly sampled, short
//   ones events films FOLDER            films with a truth.json beside them
#include <fmt/format.h>

#include <cstdlib>
#include <map>
#include <string>
#include <tuple>

#include "motion/event_errors.hpp"
#include "motion/rendered.hpp"

namespace rangecheck::test {
namespace {

void print(const std::string& title, const Outcome& outcome, double rate_hz) {
  fmt::print("\n{}: {} films, {} without a swing found, {} refused, {} another swing\n", title,
             outcome.films, outcome.no_swing, outcome.refused.size(), outcome.silently_wrong);
  fmt::print("{:>4} {:>8} {:>10} {:>8} {:>8} {:>8} {:>8} {:>8} {:>8}\n", "", "found %", "median ms",
             "95 % ms", "frames", "frames", "mean ms", "u ms", "in 2 u %");
  for (const Position position : all_positions) {
    const EventErrors& errors = outcome[position];
    if (errors.shown == 0) continue;
    const double median_s = errors.quantile_s(0.5), far_s = errors.quantile_s(0.95);
    fmt::print(
        "{:>4} {:>8.1f} {:>10.1f} {:>8.1f} {:>8.2f} {:>8.2f} {:>+8.1f} {:>8.1f} {:>8.1f}\n",
        alias_of(position),
        100.0 * static_cast<double>(errors.error_s.size()) / static_cast<double>(errors.shown),
        1e3 * median_s, 1e3 * far_s, median_s * rate_hz, far_s * rate_hz, 1e3 * errors.mean_s(),
        1e3 * errors.mean_stated_s(), 100 * errors.covered());
  }
}

int made_up(int count, std::uint64_t first_seed) {
  for (const bool club : {true, false}) {
    for (const auto view : {samples::View::face_on, samples::View::down_the_line}) {
      for (const double rate_hz : {30.0, 60.0, 120.0, 240.0}) {
        samples::SwingOptions options;
        options.rate_hz = rate_hz;
        options.club = club;
        print(fmt::format("{} {:.0f} Hz, {} club points", samples::name_of(view), rate_hz,
                          club ? "with" : "without"),
              outcome_of(options, view, first_seed, count), rate_hz);
      }
    }
  }
  return 0;
}

void print_trouble(const std::string& title, const samples::SwingOptions& options, int count) {
  for (const auto view : {samples::View::face_on, samples::View::down_the_line}) {
    const Outcome outcome = outcome_of(options, view, 1, count);
    fmt::print("\n{}, {}: {} films, {} without a swing found, {} refused, {} another swing\n",
               title, samples::name_of(view), outcome.films, outcome.no_swing,
               outcome.refused.size(), outcome.silently_wrong);
    std::map<std::string, int> why;
    for (const auto& each : outcome.refused) ++why[each];
    for (const auto& [what, times] : why) fmt::print("  {} times: {}\n", times, what);
    for (const Position position : all_positions) {
      const EventErrors& errors = outcome[position];
      if (errors.shown == 0) continue;
      fmt::print(
          "  {} found in {} of {}: median {:.0f} ms, 95 % {:.0f} ms, mean {:+.0f}, u {:.0f} ms, "
          "{:.0f} % in 2 u\n",
          alias_of(position), errors.error_s.size(), errors.shown, 1e3 * errors.quantile_s(0.5),
          1e3 * errors.quantile_s(0.95), 1e3 * errors.mean_s(), 1e3 * errors.mean_stated_s(),
          100 * errors.covered());
    }
  }
}

int trouble(int count) {
  samples::SwingOptions plain;
  plain.rate_hz = 60;
  auto waggle = plain, practice = plain, bad = plain, all = plain, start = plain, end = plain;
  waggle.waggle = true;
  practice.practice_swing = true;
  for (auto* each : {&bad, &all}) {
    each->dropped_chance = each->repeated_chance = 0.04;
    each->uneven_s = 0.003;
    each->base.detector.outlier_chance = 1;
  }
  all.waggle = all.practice_swing = true;
  start.trimmed_start = true;
  end.trimmed_end = true;
  print_trouble("a waggle before", waggle, count);
  print_trouble("a practice swing before", practice, count);
  print_trouble("dropped, repeated, uneven frames and outliers", bad, count);
  print_trouble("all of these", all, count);
  print_trouble("begins in the backswing", start, count);
  print_trouble("ends after impact", end, count);
  for (const auto& [kind, setup, name] :
       {std::tuple{samples::SwingKind::pitch, samples::Setup::wedge, "pitch"},
        std::tuple{samples::SwingKind::chip, samples::Setup::chip, "chip"},
        std::tuple{samples::SwingKind::putt, samples::Setup::putter, "putt"}}) {
    auto options = plain;
    options.kind = kind;
    options.base.setup = setup;
    print_trouble(name, options, count);
  }
  return 0;
}

int films(const std::string& folder) {
  for (const auto& film : rendered_films(folder)) {
    Outcome outcome;
    judge(film.track, film.rate_hz, "full", film.truth_s, outcome);
    print(film.name, outcome, film.rate_hz);
  }
  return 0;
}

}  // namespace
}  // namespace rangecheck::test

int main(int argc, char** argv) {
  using namespace rangecheck::test;
  if (argc == 3 && std::string(argv[1]) == "films") return films(argv[2]);
  if (argc > 1 && std::string(argv[1]) == "trouble")
    return trouble(argc > 2 ? std::atoi(argv[2]) : 200);
  const int count = argc > 1 ? std::atoi(argv[1]) : 200;
  return made_up(count, argc > 2 ? std::strtoull(argv[2], nullptr, 10) : 1);
}
