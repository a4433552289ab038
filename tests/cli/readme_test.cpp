// SPDX-License-Identifier: MIT
// README shows commands with what they print: fenced blocks whose first line is "$ rangecheck …" or
// "$ cat …". They are run in order in one folder, and the text must be the same; a line "[…]"
// stands for any number of lines left out.
#include <doctest/doctest.h>

#include <sstream>
#include <vector>

#include "program.hpp"

namespace rangecheck::cli {
namespace {

namespace fs = std::filesystem;

struct Shown {
  std::string command;
  std::vector<std::string> lines;
};

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

std::vector<Shown> shown_commands(const std::string& readme) {
  std::vector<Shown> found;
  bool fenced = false;
  bool inside = false;
  for (const auto& line : lines_of(readme)) {
    if (line.starts_with("```")) {
      fenced = !fenced;
      inside = false;
    } else if (fenced && (line.starts_with("$ rangecheck ") || line.starts_with("$ cat "))) {
      found.push_back({line.substr(2), {}});
      inside = true;
    } else if (fenced && inside) {
      found.back().lines.push_back(line);
    }
  }
  return found;
}

/// Whether `shown`, from index `i`, is `printed` from index `j`, "[…]" being any number of lines.
bool same(const std::vector<std::string>& shown, std::size_t i,
          const std::vector<std::string>& printed, std::size_t j) {
  if (i == shown.size()) return j == printed.size();
  if (shown[i] == "[…]") {
    for (std::size_t k = j; k <= printed.size(); ++k)
      if (same(shown, i + 1, printed, k)) return true;
    return false;
  }
  return j < printed.size() && shown[i] == printed[j] && same(shown, i + 1, printed, j + 1);
}

TEST_CASE("README shows what the program prints") {
  const fs::path source = RANGECHECK_SOURCE_DIR;
  const Scratch scratch;
  for (const auto* part : {"samples", "profiles"})
    fs::create_symlink(source / part, scratch.folder() / part);
  const auto commands = shown_commands(content_of(source / "README.md"));
  CHECK(commands.size() >= 4);
  for (const auto& [command, lines] : commands) {
    const std::string printed = run_shell(command, scratch.folder()).out;
    CAPTURE(command);
    CAPTURE(printed);
    CHECK(same(lines, 0, lines_of(printed), 0));
  }
}

}  // namespace
}  // namespace rangecheck::cli
