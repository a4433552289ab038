// SPDX-License-Identifier: MIT
// For people: how well motion times the positions.
//   events [COUNT [FIRST-SEED]]    made-up swings at four rates, with and without club points
//   events films FOLDER...         films with a truth.json beside them
#include <fmt/format.h>

#include <cstdlib>
#include <string>

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
  const int count = argc > 1 ? std::atoi(argv[1]) : 200;
  return made_up(count, argc > 2 ? std::strtoull(argv[2], nullptr, 10) : 1);
}
