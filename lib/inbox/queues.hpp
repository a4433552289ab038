// SPDX-License-Identifier: MIT
// The order of work. Inside inbox only.
#pragma once

#include <chrono>
#include <cstddef>
#include <span>
#include <vector>

#include "history/store.hpp"
#include "inbox/naming.hpp"
#include "intake/submission.hpp"

namespace rangecheck::inbox {

/// A submission to be worked through.
struct Turn {
  std::size_t location = 0;  ///< index
  history::Arrival arrival;
};

/// Submissions for one worker, in order of arrival.
using Queue = std::vector<Turn>;

/// All submissions of a student are one queue, so that what a page says about earlier ones hangs on
/// no other worker; one whose student can't be told is a queue of its own. In order of the first
/// location of each. Arrivals call submissions as outputs do. A submission without a time arrives
/// when it was first recorded, or `now`. An error when the history can't be read.
Result<std::vector<Queue>> queues_of(std::span<const intake::Location> locations,
                                     const Naming& naming, const history::Store& store,
                                     std::chrono::sys_seconds now);

}  // namespace rangecheck::inbox
