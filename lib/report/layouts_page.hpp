// SPDX-License-Identifier: MIT
// What `rangecheck layouts` prints of point sets, from their files alone.
#pragma once

#include <string>

#include "intake/layout.hpp"

namespace rangecheck::report {

/// One line a point set: name, points, how many of them are joints here, where it is from, title.
std::string layouts_table(const intake::LayoutSet& layouts);

/// Which index is which joint, a line each; points without use are one line a run.
std::string layout_page(const intake::Layout& layout);

}  // namespace rangecheck::report
