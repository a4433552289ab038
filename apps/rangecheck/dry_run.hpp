// SPDX-License-Identifier: MIT
#pragma once

#include "inbox/inbox.hpp"
#include "telling.hpp"

namespace rangecheck::app {

/// Prints a line for each submission that a run would work through, with why and what would come of
/// it as far as can be told, and counts on stderr. The exit code is that of such a run.
int dry_run(const inbox::Job& job, Telling& telling, ErrorForm form);

}  // namespace rangecheck::app
