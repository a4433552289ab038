// SPDX-License-Identifier: MIT
#pragma once

#include <span>

#include "intake/dialects/form.hpp"

namespace rangecheck::intake {

extern const Form plain;
extern const Form people_per_frame;
extern const Form coco_results;
extern const Form points_33;

/// All that are known, in the order in which a document is tried on them: a form whose marks are
/// its own before one that takes what is left.
std::span<const Form* const> all_forms();

}  // namespace rangecheck::intake
