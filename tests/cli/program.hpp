// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <string>

#include "scratch.hpp"

namespace rangecheck::cli {

using test::Scratch;

struct Outcome {
  int exit_code = -1;
  std::string out, err;
};

/// Runs a line of shell in `folder`, with the program under test on PATH as `rangecheck`.
Outcome run_shell(const std::string& line, const std::filesystem::path& folder);

/// `word` so that the shell takes it as it is.
std::string shell_word(const std::string& word);

/// The whole file; fails the test when it is not there.
std::string content_of(const std::filesystem::path& file);

}  // namespace rangecheck::cli
