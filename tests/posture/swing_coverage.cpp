// SPDX-License-Identifier: MIT
// Prints how every measure did at every position of made-up swings:
// swing_coverage [COUNT [FIRST-SEED [true|found [25|33]]]], or of films with known joints:
// swing_coverage FOLDER [true|found].
#include <fmt/format.h>

#include <chrono>
#include <cstdlib>
#include <cstring>
#include <filesystem>

#include "posture/swings.hpp"

using namespace rangecheck::test;

namespace {

bool says_found(int argc, char** argv, int number) {
  return argc > number && std::strcmp(argv[number], "found") == 0;
}

void print_film(const char* folder, Moments moments) {
  for (const auto& [films, name] :
       {std::pair{Films::both, "both"}, std::pair{Films::face_on, "face-on alone"},
        std::pair{Films::down_the_line, "down-the-line alone"}}) {
    Population population;
    hold_film(folder, films, moments, population);
    fmt::print("\n{}\n{}", name, swing_table(population));
  }
}

}  // namespace

int main(int argc, char** argv) {
  if (argc > 1 && std::filesystem::is_directory(argv[1])) {
    print_film(argv[1], says_found(argc, argv, 2) ? Moments::found : Moments::true_ones);
    return 0;
  }
  const int count = argc > 1 ? std::atoi(argv[1]) : 200;
  const auto first = argc > 2 ? std::strtoull(argv[2], nullptr, 10) : 1ULL;
  SwingTrial trial;
  if (says_found(argc, argv, 3)) trial.moments = Moments::found;
  if (argc > 4) {
    const auto skeleton = std::atoi(argv[4]) == 33 ? rangecheck::samples::Skeleton::points_33
                                                   : rangecheck::samples::Skeleton::points_25;
    trial.vary = [skeleton](rangecheck::samples::SwingOptions& options) {
      options.base.detector.skeleton = skeleton;
    };
  }
  if (argc > 4) {
    const auto skeleton = std::atoi(argv[4]) == 33 ? rangecheck::samples::Skeleton::points_33
                                                   : rangecheck::samples::Skeleton::points_25;
    trial.vary = [skeleton](rangecheck::samples::SwingOptions& options) {
      options.base.detector.skeleton = skeleton;
    };
  }
  for (const auto& [films, name] :
       {std::pair{Films::both, "both"}, std::pair{Films::face_on, "face-on alone"},
        std::pair{Films::down_the_line, "down-the-line alone"}}) {
    trial.films = films;
    const auto start = std::chrono::steady_clock::now();
    const auto population = run_swings(trial, first, count);
    const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
    fmt::print("\n{}: {:.1f} ms a swing\n{}", name, took.count() / count, swing_table(population));
  }
}
