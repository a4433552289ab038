// SPDX-License-Identifier: MIT
// The order of work. Inside inbox only.
#pragma once

#include <chrono>
#include <cstddef>
#include <functional>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <utility>
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
/// location of each. `senders` are those of the locations, where they can be told. Arrivals call
/// submissions as outputs do. A submission without a time arrives when it was first recorded, or
/// `now`. An error when the history can't be read.
Result<std::vector<Queue>> queues_of(std::span<const intake::Location> locations,
                                     std::span<const std::optional<intake::Sender>> senders,
                                     const Naming& naming, const history::Store& store,
                                     std::chrono::sys_seconds now);

/// Whether a submission will be worked through yet, so that what is recorded of it does not count.
using Waits = std::function<bool(const std::string& submission)>;

/// Which submissions wait for their turn.
class Order {
 public:
  explicit Order(std::span<const Queue> queues);
  /// As seen from turn `place` of `queue`: all of this run but those before it in its own queue,
  /// however far other workers are.
  Waits waits(std::size_t queue, std::size_t place) const;

 private:
  std::map<std::string, std::pair<std::size_t, std::size_t>> turns_;  ///< queue and place
};

}  // namespace rangecheck::inbox
