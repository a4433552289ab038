// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "grade/lint.hpp"

namespace rangecheck::inbox {

/// grade::lint, and for a whole folder what a run reads of it besides: point sets and words. With a
/// language that pages can have, what has no translation into it is advice.
grade::Lint lint(const std::filesystem::path& folder,
                 const std::vector<std::filesystem::path>& files, const std::string& language);

}  // namespace rangecheck::inbox
