// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <vector>

#include "grade/lint.hpp"

namespace rangecheck::inbox {

/// grade::lint, and for a whole folder what a run reads of it besides: point sets and words.
grade::Lint lint(const std::filesystem::path& folder,
                 const std::vector<std::filesystem::path>& files);

}  // namespace rangecheck::inbox
