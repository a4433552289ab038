// SPDX-License-Identifier: MIT
// README shows commands with what they print: fenced blocks whose first line is "$ command". They
// are run in order in one folder, and must print just that. refill_readme.py brings them up to
// date.
#include <doctest/doctest.h>

#include <sstream>
#include <vector>

#include "program.hpp"

namespace rangecheck::cli {
namespace {

namespace fs = std::filesystem;

struct Shown {
  std::string command, printed;
};

std::vector<Shown> shown_commands(const std::string& readme) {
  std::vector<Shown> found;
  bool fenced = false;
  bool inside = false;
  std::istringstream stream(readme);
  for (std::string line; std::getline(stream, line);) {
    if (line.starts_with("```")) {
      fenced = !fenced;
      inside = false;
    } else if (fenced && line.starts_with("$ ")) {
      found.push_back({line.substr(2), ""});
      inside = true;
    } else if (inside) {
      found.back().printed += line + "\n";
    }
  }
  return found;
}

TEST_CASE("README shows what the program prints") {
  const fs::path source = RANGECHECK_SOURCE_DIR;
  const Scratch scratch;
  for (const auto* part : {"samples", "profiles"})
    fs::create_symlink(source / part, scratch.path / part);
  const auto commands = shown_commands(content_of(source / "README.md"));
  CHECK(commands.size() >= 4);
  for (const auto& [command, printed] : commands) {
    CAPTURE(command);
    CHECK(run_shell(command, scratch.path).out == printed);
  }
}

}  // namespace
}  // namespace rangecheck::cli
