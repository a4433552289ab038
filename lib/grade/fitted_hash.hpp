// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "grade/profile.hpp"

namespace rangecheck::grade {

/// Of all that a student is held against, hex: changes when anything does that a grade or a page
/// could show, and with nothing in profiles that are not this student's.
std::string hash_of(const Fitted& fitted);

}  // namespace rangecheck::grade
