// SPDX-License-Identifier: MIT
// Writes a made-up inbox to time programs with: make_inbox FOLDER COUNT address|swing
//
// Every submission has two films of 300 frames, one from in front and one down the line, with 33
// points in the picture and in space and all digits of every number. `address`: the golfer stands
// still in all of them. `swing`: he swings. There are at most 100 golfers; from then on submissions
// of other students have the same films, as links, so that a large inbox fits on a disk.
#include <fmt/format.h>

#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>
#include <string_view>

#include "generator/papers.hpp"

namespace rangecheck::samples {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t frames = 300;
constexpr int most_golfers = 100;
constexpr double rate_hz = 60;

Sample planned(int golfer, bool swings) {
  Sample plan;
  plan.seed = 9000 + static_cast<std::uint64_t>(golfer);
  plan.facts_in_manifest = true;
  plan.frame_rate_hz = rate_hz;
  plan.films = {FilmPlan{.written_as = WrittenAs::points_33},
                FilmPlan{.written_as = WrittenAs::points_33}};
  plan.options.detector.skeleton = Skeleton::points_33;
  plan.options.detector.frames = frames;
  plan.options.placement.image_px = {1080, 1920};
  plan.options.placement.distance_m = {3.2, 4.4};
  plan.options.placement.height_m = {0.7, 1.4};
  if (swings) plan.filmed_swing = SwingOptions{.base = {}, .rate_hz = rate_hz};
  return plan;
}

/// A film that is shorter goes on as it ends, a longer one is cut.
Film of_all_frames(Film film) {
  film.frames.resize(frames, film.frames.back());
  film.numbers.clear();
  return film;
}

void write(const fs::path& file, std::string_view content) {
  std::ofstream out(file, std::ios::binary);
  out << content;
  out.close();
  if (!out) throw std::runtime_error("can't write " + file.string());
}

void make(const fs::path& inbox, int count, bool swings) {
  const auto folder_of = [&](int number) { return inbox / fmt::format("b-{:05}", number); };
  for (int golfer = 0; golfer < std::min(count, most_golfers); ++golfer) {
    DrawnSample sample(planned(golfer, swings));
    for (int number = golfer; number < count; number += most_golfers) {
      const fs::path folder = folder_of(number);
      fs::create_directories(folder);
      sample.plan.student = fmt::format("s-{:05}", number);
      write(folder / "submission.yaml", manifest(sample));
      for (std::size_t i = 0; i < sample.drawn.films.size(); ++i) {
        const std::string file = sample.landmark_file(i);
        if (number == golfer) {
          write(folder / file, points_33_results(of_all_frames(sample.film(i)), Digits::all));
        } else {
          fs::create_hard_link(folder_of(golfer) / file, folder / file);
        }
      }
    }
  }
}

}  // namespace
}  // namespace rangecheck::samples

int main(int argc, char** argv) {
  const std::string_view what = argc == 4 ? argv[3] : "";
  if (what != "address" && what != "swing") {
    std::fputs("make_inbox FOLDER COUNT address|swing\n", stderr);
    return 2;
  }
  try {
    rangecheck::samples::make(argv[1], std::stoi(argv[2]), what == "swing");
  } catch (const std::exception& thrown) {
    fmt::print(stderr, "make_inbox: {}\n", thrown.what());
    return 3;
  }
}
