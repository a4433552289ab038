// SPDX-License-Identifier: MIT
// Prints how every measure did at every position, of made-up swings:
//   swing_coverage [COUNT [FIRST-SEED [WORD…]]]
// or of films of a real estimator with known joints:
//   swing_coverage FOLDER [WORD…]
// or of made-up swings seen in space only:
//   swing_coverage space [COUNT [FIRST-SEED [WORD…]]]
// Words: `found` has motion find the moments (else they are the true ones), `club` detects the club
// too, `33` or `25` draws one estimator's points only (else half of each).
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

#include "posture/swings.hpp"

using namespace rangecheck::test;

namespace {

constexpr std::pair<Films, const char*> each_films[] = {
    {Films::both, "both"},
    {Films::face_on, "face-on alone"},
    {Films::down_the_line, "down-the-line alone"}};

SwingTrial trial_of(const std::vector<std::string>& words) {
  const auto said = [&words](const char* word) {
    return std::find(words.begin(), words.end(), word) != words.end();
  };
  SwingTrial trial;
  if (said("found")) trial.moments = Moments::found;
  trial.vary = [club = said("club"), only_33 = said("33"),
                only_25 = said("25")](rangecheck::samples::SwingOptions& options) {
    options.club = club;
    if (only_33) options.base.detector.skeleton = rangecheck::samples::Skeleton::points_33;
    if (only_25) options.base.detector.skeleton = rangecheck::samples::Skeleton::points_25;
  };
  return trial;
}

void print_film(const std::filesystem::path& folder, Moments moments) {
  for (const auto& [films, name] : each_films) {
    Population population;
    hold_film(folder, films, moments, population);
    fmt::print("\n{}\n{}", name, swing_table(population));
  }
}

void print_one(const char* name, const SwingTrial& trial, std::uint64_t first, int count) {
  const auto start = std::chrono::steady_clock::now();
  const auto population = run_swings(trial, first, count);
  const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
  fmt::print("\n{}: {:.1f} ms a swing\n{}", name, took.count() / count, swing_table(population));
}

void print_swings(SwingTrial trial, std::uint64_t first, int count) {
  for (const auto& [films, name] : each_films) {
    trial.films = films;
    print_one(name, trial, first, count);
  }
}

void print_in_space(SwingTrial trial, std::uint64_t first, int count) {
  using rangecheck::samples::SpaceKind;
  trial.films = Films::face_on;
  for (const auto& [kind, name] : {std::pair{SpaceKind::several_cameras, "several cameras"},
                                   std::pair{SpaceKind::depth_camera, "a depth camera, face-on"},
                                   std::pair{SpaceKind::one_camera, "guessed from one, face-on"}}) {
    trial.space = kind;
    print_one(name, trial, first, count);
  }
}

}  // namespace

int main(int argc, char** argv) {
  std::vector<std::string> given(argv + 1, argv + argc);
  const bool in_space = !given.empty() && given[0] == "space";
  if (in_space) given.erase(given.begin());
  if (!given.empty() && std::filesystem::is_directory(given[0])) {
    print_film(given[0], trial_of({given.begin() + 1, given.end()}).moments);
    return 0;
  }
  const auto number = [&given](std::size_t at, std::uint64_t otherwise) {
    return given.size() > at ? std::strtoull(given[at].c_str(), nullptr, 10) : otherwise;
  };
  const std::vector<std::string> words(
      given.begin() + std::min<std::ptrdiff_t>(2, std::ssize(given)), given.end());
  const auto print = in_space ? print_in_space : print_swings;
  print(trial_of(words), number(1, 1), static_cast<int>(number(0, 200)));
}
