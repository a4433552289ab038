// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <vector>

#include "grade/grade.hpp"

namespace rangecheck::grade {

/// What to work on: indices into `results`, the main item first, at most three. grade.hpp says how.
std::vector<std::size_t> choose_work(std::span<const CheckResult> results);

}  // namespace rangecheck::grade
