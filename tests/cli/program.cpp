// SPDX-License-Identifier: MIT
#include "program.hpp"

#include <doctest/doctest.h>
#include <sys/wait.h>

#include <cstdlib>
#include <fstream>
#include <sstream>

namespace rangecheck::cli {

namespace fs = std::filesystem;

std::string shell_word(const std::string& word) {
  std::string quoted = "'";
  for (const char c : word) quoted += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return quoted + "'";
}

std::string content_of(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  CAPTURE(file.string());
  REQUIRE(stream);
  std::ostringstream content;
  content << stream.rdbuf();
  return content.str();
}

Outcome run_shell(const std::string& line, const fs::path& folder) {
  const Scratch streams;
  const fs::path out = streams.path / "out";
  const fs::path err = streams.path / "err";
  const std::string bin = fs::path(RANGECHECK_PROGRAM).parent_path().string();
  const std::string whole = "cd " + shell_word(folder.string()) + " && PATH=" + shell_word(bin) +
                            ":\"$PATH\" && ( " + line + " ) >" + shell_word(out.string()) + " 2>" +
                            shell_word(err.string()) + " </dev/null";
  const int status = std::system(whole.c_str());  // NOLINT(cert-env33-c): lines are the tests' own
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, content_of(out), content_of(err)};
}

}  // namespace rangecheck::cli
