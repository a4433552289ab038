// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <vector>

#include "base/result.hpp"
#include "base/words.hpp"

namespace rangecheck::grade {

/// Something about what is taught.
struct Finding {
  Error error;
  bool refuses = true;  ///< no run would begin with it; else advice
};

struct Lint {
  std::vector<Finding> findings;  ///< errors first, then by file and line
  std::size_t files = 0;          ///< that say what profiles say
  std::size_t profiles = 0;       ///< that can be chosen
};

/// Reads a profiles folder as a run does and tells every fault. What hangs on a file that can't be
/// made out is not complained of, so that mending may show more. Where there is no fault, advice:
/// what counts for nothing, what is missing where a student would look for it, and checks that
/// can't be met together. With `files` (profiles, in the folder or elsewhere) only what is about
/// these; those that lie elsewhere are read as if they were in the folder. With `words` advice,
/// too, on each sentence that has no translation in them.
Lint lint(const std::filesystem::path& folder, const std::vector<std::filesystem::path>& files,
          const rangecheck::Words* words = nullptr);

}  // namespace rangecheck::grade
