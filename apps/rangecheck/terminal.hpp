// SPDX-License-Identifier: MIT
#pragma once

namespace rangecheck::app {

/// What may be written on stderr besides plain lines: nothing where it is a file, a pipe, or a
/// terminal that calls itself dumb.
struct Terminal {
  bool redraws = false;  ///< a line may be written over
  bool colours = false;  ///< not where NO_COLOR is set (no-color.org)
};

Terminal stderr_terminal();

}  // namespace rangecheck::app
