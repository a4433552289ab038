// SPDX-License-Identifier: MIT
// What a run begins with. Inside inbox only.
#pragma once

#include <vector>

#include "inbox/given.hpp"
#include "inbox/inbox.hpp"

namespace rangecheck::inbox {

struct Found {
  Taught taught;
  std::vector<intake::Location> locations;  ///< by id, as the inbox calls them
};

/// Reads what is taught and looks for submissions. Fault::io when the inbox can't be read,
/// Fault::bad_value when Job::redo names what is not there, else the fault of profiles or roster.
Result<Found> find_all(const Job& job);

}  // namespace rangecheck::inbox
