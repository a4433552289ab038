// SPDX-License-Identifier: MIT
// Writes the sample inbox, its roster, a coach's readings and the truth behind it: make_samples
// FOLDER
#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>
#include <stdexcept>

#include "generator/club_file.hpp"
#include "generator/dialects/dialects.hpp"
#include "generator/dialects/film_scene.hpp"
#include "generator/papers.hpp"
#include "generator/space_detector.hpp"

namespace rangecheck::samples {
namespace {

namespace fs = std::filesystem;

void write(const fs::path& file, std::string_view content) {
  fs::create_directories(file.parent_path());
  std::ofstream out(file, std::ios::binary);
  out << content;
  out.close();
  if (!out) throw std::runtime_error("can't write " + file.string());
}

/// Another golfer farther from the camera, in the same picture.
std::vector<DetectedFrame> bystander(const FilmedTruth& filmed, const Sample& plan) {
  Random random = Random::for_part(plan.seed, 100);
  const Eigen::Vector3d away =
      filmed.view == View::face_on ? Eigen::Vector3d(0.7, 0, -2.4) : Eigen::Vector3d(2.6, 0, -1.5);
  Points points = draw_golfer(random, Age::adult, Setup::iron, Family::neutral).points;
  for (auto& point : points.values()) {
    if (point) *point += away;
  }
  return detect(random, plan.options.detector, filmed.view, filmed.camera, points);
}

/// The golfer's swing with others about, as they were all detected.
Film crowded(Film film, const Sample& plan) {
  CrowdOptions options;
  options.swing = *plan.filmed_swing;
  options.swing.base = plan.options;
  options.others = plan.others;
  const auto crowd = draw_crowd(plan.seed, options);
  for (std::size_t number = 0; number < film.frames.size(); ++number) {
    film.frames[number].clear();
    for (const auto& person : crowd.people[number]) film.frames[number].push_back(person.points);
  }
  return film;
}

/// The golfer as a depth camera in the same place has him.
Film in_space(Film film, const DrawnSample& sample, std::size_t i) {
  auto random = Random::for_part(sample.plan.seed, 200 + i);
  const auto& filmed = sample.swing->films[i];
  const auto seen = detect_in_space(random, SpaceKind::depth_camera, filmed.camera, filmed.truth);
  for (std::size_t number = 0; number < film.frames.size(); ++number)
    film.frames[number] = {seen[number]};
  return film;
}

Film film_to_write(const DrawnSample& sample, std::size_t i) {
  Film film = sample.film(i);
  if (sample.film_plan(i).written_as == WrittenAs::depth_camera_gzipped)
    return in_space(std::move(film), sample, i);
  if (!sample.plan.others.empty()) return without_club(crowded(film, sample.plan));
  if (sample.film_plan(i).club_file) return without_club(film);
  if (!sample.plan.bystander) return film;
  const auto other = bystander(sample.drawn.films[i], sample.plan);
  for (std::size_t number = 0; number < film.frames.size(); ++number) {
    auto& people = film.frames[number];
    people.insert(number % 2 == 0 ? people.end() : people.begin(), other[number]);
  }
  return film;
}

std::string only_file(const Dialect& dialect, const Film& film) {
  return dialect.write(scene_of(film)).at(0).text;
}

void write_film(const fs::path& file, const Film& film, WrittenAs written_as) {
  switch (written_as) {
    case WrittenAs::plain:
      return write(file, plain_form(film));
    case WrittenAs::plain_gzipped:
      return write(file, gzipped(plain_form(film)));
    case WrittenAs::coco_17:
      return write(file, coco_results(film));
    case WrittenAs::points_33:
      return write(file, points_33_results(film));
    case WrittenAs::points_33_gzipped:
      return write(file, gzipped(points_33_results(film)));
    case WrittenAs::points_26_gzipped:
      return write(file, gzipped(only_file(dialect_of("coco-results", 26), film)));
    case WrittenAs::depth_camera_gzipped:
      return write(file, gzipped(only_file(dialect_of("depth-camera-bodies", 32), film)));
    case WrittenAs::one_file_a_frame:
      for (const auto& [name, text] : one_file_a_frame(film, file.filename().string())) {
        write(file / name, text);
      }
  }
}

void write_sample(const fs::path& out, const DrawnSample& sample) {
  const fs::path inbox = out / "inbox";
  const fs::path folder = sample.plan.loose ? inbox : inbox / sample.plan.id();
  for (std::size_t i = 0; i < sample.drawn.films.size(); ++i) {
    const fs::path file = folder / sample.landmark_file(i);
    write_film(file, film_to_write(sample, i), sample.film_plan(i).written_as);
    if (sample.film_plan(i).club_file)
      write(folder / sample.club_file_name(i), club_file(sample.film(i)));
    if (sample.plan.defect == Defect::truncated_file && i == 0) {
      fs::resize_file(file, fs::file_size(file) * 3 / 5);
    }
  }
  if (!sample.plan.loose) write(folder / "submission.yaml", manifest(sample));
  write(out / "truth" / (sample.plan.id() + ".json"), truth(sample));
}

void make(const fs::path& out) {
  std::vector<DrawnSample> samples;
  for (const auto& plan : planned_samples()) {
    samples.emplace_back(plan);
    write_sample(out, samples.back());
  }
  write(out / "roster.csv", roster(samples));
  write(out / "readings.csv", readings(samples));
}

}  // namespace
}  // namespace rangecheck::samples

int main(int argument_count, char** arguments) {
  if (argument_count != 2) {
    std::fputs("usage: make_samples FOLDER\n", stderr);
    return 2;
  }
  try {
    rangecheck::samples::make(arguments[1]);
  } catch (const std::exception& fault) {
    std::fprintf(stderr, "make_samples: %s\n", fault.what());
    return 3;
  }
  return 0;
}
