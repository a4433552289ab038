// SPDX-License-Identifier: MIT
// The same numbers by another program: second routes that share no code with ours.
#pragma once

#include <cstdio>
#include <optional>
#include <string>

#include "close.hpp"
#include "intake/fixture.hpp"

namespace rangecheck::test {

/// Standard output of a Python script under tests/ for `lines`, or nothing when its libraries are
/// not there.
inline std::optional<std::string> by_another_library(const std::string& script,
                                                     const std::string& lines) {
  const intake::Scratch scratch;
  scratch.write("lines.txt", lines);
  const std::string command = "/usr/bin/python3 " RANGECHECK_SOURCE_DIR "/tests/" + script +
                              " < '" + (scratch.path / "lines.txt").string() + "' 2>/dev/null";
  std::FILE* pipe = ::popen(command.c_str(), "r");
  if (pipe == nullptr) return std::nullopt;
  std::string out;
  for (int c = std::fgetc(pipe); c != EOF; c = std::fgetc(pipe)) out += static_cast<char>(c);
  const int status = ::pclose(pipe);
  const int exit_code = (status >> 8) & 0xff;
  if (exit_code == 77 || exit_code == 127) return std::nullopt;
  REQUIRE(exit_code == 0);
  return out;
}

}  // namespace rangecheck::test
