// SPDX-License-Identifier: MIT
#include "night.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <functional>
#include <iterator>

#include "generator/writer.hpp"

namespace rangecheck::inbox {

namespace fs = std::filesystem;

namespace {

constexpr auto manifest = R"(club: 7-iron
golfer: { handedness: right, stature: 176 cm }
views:
  - { view: face-on, landmarks: face-on.json }
  - { view: down-the-line, landmarks: down-the-line.json }
)";

}  // namespace

Result<Whole> run_whole(Job job) {
  Whole whole;
  job.redo.emplace();
  job.on_progress = [&](const Progress& progress) {
    if (progress.graded) whole.graded.push_back(*progress.graded);
  };
  auto night = run(job);
  if (!night) return night.error();
  std::ranges::sort(whole.graded, {}, &report::Graded::submission);
  whole.set_aside = std::move(night->set_aside);
  return whole;
}

Fixture::Fixture() { fs::create_directory(folder() / "inbox"); }

void Fixture::write(const fs::path& relative, const std::string& content) const {
  fs::create_directories((folder() / relative).parent_path());
  std::ofstream(folder() / relative, std::ios::binary) << content;
}

void Fixture::add_good(const std::string& id) const { add_of("s-0001", id, ""); }

void Fixture::add_of(const std::string& student, const std::string& id,
                     const std::string& received) const {
  const samples::Drawn drawn = samples::draw(std::hash<std::string>{}(id));
  const fs::path home = fs::path("inbox") / id;
  write(home / "submission.yaml", "student: " + student + "\n" +
                                      (received.empty() ? "" : "received: " + received + "\n") +
                                      manifest);
  for (const auto& film : drawn.films)
    write(home / (std::string(samples::name_of(film.view)) + ".json"),
          samples::plain_form(samples::film_of(film, 30, samples::Hand::right)));
}

void Fixture::add_broken(const std::string& id) const {
  add_good(id);
  write(fs::path("inbox") / id / "face-on.json", R"({"format": "rangecheck-landmarks", "ver)");
}

std::map<std::string, std::string> Fixture::files(const fs::path& relative) const {
  std::map<std::string, std::string> found;
  for (const auto& entry : fs::recursive_directory_iterator(folder() / relative)) {
    if (!entry.is_regular_file() || entry.path().stem() == "history") continue;
    std::ifstream stream(entry.path(), std::ios::binary);
    found[fs::relative(entry.path(), folder() / relative).string()] =
        std::string(std::istreambuf_iterator<char>(stream), {});
  }
  return found;
}

Job Fixture::job(unsigned workers) const {
  return {.inbox = folder() / "inbox",
          .profiles = fs::path(RANGECHECK_SOURCE_DIR) / "profiles",
          .out = folder() / "out",
          .roster = std::nullopt,
          .workers = workers,
          .length_unit = "in",
          .on_progress = {}};
}

}  // namespace rangecheck::inbox
