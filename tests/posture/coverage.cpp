// SPDX-License-Identifier: MIT
// Prints how every measure did over made-up golfers: coverage [COUNT [FIRST-SEED [LEVEL]]]. LEVEL
// scales the estimator's biases: 1 is 12 to 18 mm a limb joint, 0.8 the 9 to 14 mm of a good one.
#include <fmt/format.h>

#include <chrono>
#include <cstdlib>

#include "posture/population.hpp"

int main(int argc, char** argv) {
  using rangecheck::test::Films;
  const int count = argc > 1 ? std::atoi(argv[1]) : 500;
  const auto first = argc > 2 ? std::strtoull(argv[2], nullptr, 10) : 1ULL;
  const double level = argc > 3 ? std::atof(argv[3]) : 1.0;
  rangecheck::test::Trial trial;
  trial.vary = [level](rangecheck::samples::Options& options) {
    options.detector.bias_level = level;
  };
  for (const auto& [films, name] :
       {std::pair{Films::face_on, "face-on alone"},
        std::pair{Films::down_the_line, "down-the-line alone"}, std::pair{Films::both, "both"}}) {
    const auto start = std::chrono::steady_clock::now();
    const auto population = rangecheck::test::run_population(films, first, count, trial);
    const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
    fmt::print("\n{}: {:.1f} ms a golfer\n{}", name, took.count() / count,
               rangecheck::test::table(population));
  }
}
