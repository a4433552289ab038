// SPDX-License-Identifier: MIT
#include "night.hpp"

#include <doctest/doctest.h>

#include <cstdlib>
#include <fstream>
#include <functional>
#include <iterator>

#include "generator/writer.hpp"

namespace rangecheck::inbox {

namespace fs = std::filesystem;

namespace {

constexpr auto manifest = R"(student: s-0001
club: 7-iron
golfer: { handedness: right, stature: 176 cm }
views:
  - { view: face-on, landmarks: face-on.json }
  - { view: down-the-line, landmarks: down-the-line.json }
)";

}  // namespace

Fixture::Fixture() {
  std::string pattern = (fs::temp_directory_path() / "rangecheck-test-XXXXXX").string();
  REQUIRE(::mkdtemp(pattern.data()) != nullptr);
  folder_ = pattern;
  fs::create_directory(folder_ / "inbox");
}

Fixture::~Fixture() {
  std::error_code ignored;
  fs::remove_all(folder_, ignored);
}

void Fixture::write(const fs::path& relative, const std::string& content) const {
  fs::create_directories((folder_ / relative).parent_path());
  std::ofstream(folder_ / relative, std::ios::binary) << content;
}

void Fixture::add_good(const std::string& id) const {
  const samples::Drawn drawn = samples::draw(std::hash<std::string>{}(id));
  const fs::path home = fs::path("inbox") / id;
  write(home / "submission.yaml", manifest);
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
  for (const auto& entry : fs::recursive_directory_iterator(folder_ / relative)) {
    if (!entry.is_regular_file() || entry.path().stem() == "history") continue;
    std::ifstream stream(entry.path(), std::ios::binary);
    found[fs::relative(entry.path(), folder_ / relative).string()] =
        std::string(std::istreambuf_iterator<char>(stream), {});
  }
  return found;
}

Job Fixture::job(unsigned workers) const {
  return {.inbox = folder_ / "inbox",
          .profiles = fs::path(RANGECHECK_SOURCE_DIR) / "profiles",
          .out = folder_ / "out",
          .roster = std::nullopt,
          .workers = workers,
          .length_unit = "in",
          .on_progress = {}};
}

}  // namespace rangecheck::inbox
