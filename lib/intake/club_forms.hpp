// SPDX-License-Identifier: MIT
#pragma once

#include <span>

#include "intake/dialects/form.hpp"

namespace rangecheck::intake {

/// Forms in which the dialects of people would find no body, or leave the club out: tried first on
/// the file of a detector of clubs and balls.
std::span<const Form* const> club_forms();

}  // namespace rangecheck::intake
