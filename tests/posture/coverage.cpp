// SPDX-License-Identifier: MIT
// Prints how every measure did over made-up golfers:
//   coverage [COUNT [FIRST-SEED [LEVEL]]]
// or of films that have points in space only:
//   coverage space [COUNT [FIRST-SEED]]
// LEVEL scales the estimator's biases: 1 is 12 to 18 mm a limb joint, 0.8 the 9 to 14 mm of a good
// one.
#include <fmt/format.h>

#include <chrono>
#include <cstdlib>
#include <string_view>

#include "posture/space_films.hpp"

namespace {

void print(const char* name, rangecheck::test::Films films, std::uint64_t first, int count,
           const rangecheck::test::Trial& trial) {
  const auto start = std::chrono::steady_clock::now();
  const auto population = rangecheck::test::run_population(films, first, count, trial);
  const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
  fmt::print("\n{}: {:.1f} ms a golfer\n{}", name, took.count() / count,
             rangecheck::test::table(population));
}

void print_in_space(std::uint64_t first, int count) {
  using rangecheck::samples::SpaceKind;
  for (const auto& [kind, name] : {std::pair{SpaceKind::several_cameras, "several cameras"},
                                   std::pair{SpaceKind::depth_camera, "a depth camera, face-on"},
                                   std::pair{SpaceKind::one_camera, "guessed from one, face-on"}}) {
    print(name, rangecheck::test::Films::face_on, first, count,
          {.tell = rangecheck::test::seen_in_space(kind)});
  }
}

}  // namespace

int main(int argc, char** argv) {
  if (argc > 1 && std::string_view(argv[1]) == "space") {
    print_in_space(argc > 3 ? std::strtoull(argv[3], nullptr, 10) : 1ULL,
                   argc > 2 ? std::atoi(argv[2]) : 200);
    return 0;
  }
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
    print(name, films, first, count, trial);
  }
}
