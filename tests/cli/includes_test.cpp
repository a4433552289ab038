// SPDX-License-Identifier: MIT
// Dependencies point one way, and the #includes say so.
#include <doctest/doctest.h>

#include <algorithm>
#include <fstream>
#include <set>
#include <vector>

#include "program.hpp"

namespace rangecheck::cli {
namespace {

namespace fs = std::filesystem;

const fs::path source_dir = RANGECHECK_SOURCE_DIR;

/// A room may include itself and any room before it.
const std::vector<std::string> rooms = {"base",    "intake", "pose",    "motion", "posture",
                                        "measure", "grade",  "history", "report", "inbox"};

/// Libraries that are the business of certain rooms only.
const std::vector<std::pair<std::string, std::set<std::string>>> reserved = {
    {"nlohmann/", {"intake", "report"}},
    {"simdjson.h", {"intake"}},
    {"yaml-cpp/", {"base"}},
    {"base/yaml.hpp", {"base", "intake", "grade"}},
    {"ceres/", {"posture"}},
    {"boost/", {"history"}},
    {"sqlite3.h", {"history"}},
    {"zlib.h", {"base"}},
    {"xlsxwriter.h", {"report"}},
    {"minizip/", {"report"}},
    {"CLI/", {}},
    {"Eigen/", {"posture", "measure"}},
};

/// What stands between the <> or "" of each #include.
std::vector<std::string> includes_of(const fs::path& file) {
  std::vector<std::string> found;
  std::ifstream stream(file);
  for (std::string line; std::getline(stream, line);) {
    const auto open = line.find_first_of("<\"");
    if (!line.starts_with("#include") || open == std::string::npos) continue;
    found.push_back(line.substr(open + 1, line.find_first_of(">\"", open + 1) - open - 1));
  }
  return found;
}

std::vector<fs::path> code_under(const fs::path& folder) {
  std::vector<fs::path> files;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    const auto ending = entry.path().extension();
    if (ending == ".cpp" || ending == ".hpp") files.push_back(entry.path());
  }
  return files;
}

TEST_CASE("a room includes only itself and rooms before it") {
  for (auto room = rooms.begin(); room != rooms.end(); ++room) {
    for (const auto& file : code_under(source_dir / "lib" / *room)) {
      for (const auto& include : includes_of(file)) {
        const auto other =
            std::find(rooms.begin(), rooms.end(), include.substr(0, include.find('/')));
        CAPTURE(file.string());
        CAPTURE(include);
        CHECK((other == rooms.end() || other <= room));
      }
    }
  }
}

TEST_CASE("a library is used only where it belongs") {
  for (const auto& room : rooms) {
    for (const auto& file : code_under(source_dir / "lib" / room)) {
      for (const auto& include : includes_of(file)) {
        for (const auto& [library, allowed] : reserved) {
          if (!include.starts_with(library)) continue;
          CAPTURE(file.string());
          CAPTURE(include);
          CHECK(allowed.contains(room));
        }
      }
    }
  }
}

TEST_CASE("every room is known to this test") {
  for (const auto& entry : fs::directory_iterator(source_dir / "lib")) {
    if (!entry.is_directory()) continue;
    const auto room = entry.path().filename().string();
    CAPTURE(room);
    CHECK(std::find(rooms.begin(), rooms.end(), room) != rooms.end());
  }
}

}  // namespace
}  // namespace rangecheck::cli
