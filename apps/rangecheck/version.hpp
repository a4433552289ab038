// SPDX-License-Identifier: MIT
#pragma once

#include <string>

namespace rangecheck::app {

/// What `--version` prints: name and version on the first line, then how the program was built. The
/// same source, compiler and libraries give the same text: no time, no path and no person is in it.
std::string version_text();

}  // namespace rangecheck::app
