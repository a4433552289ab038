// SPDX-License-Identifier: MIT
// What every run is given, and how it begins. Inside inbox only.
#pragma once

#include <exception>
#include <filesystem>
#include <optional>
#include <vector>

#include "grade/profile.hpp"
#include "inbox/output.hpp"
#include "intake/layout.hpp"
#include "intake/submission.hpp"

namespace rangecheck::inbox {

/// What all submissions of a run are read and graded with.
struct Taught {
  grade::ProfileSet profiles;
  intake::LayoutSet layouts;
  intake::Roster roster;
  Catalogues words;
};

/// The files that a run is taught by; an error is a mistake in the command, not a bad night.
Result<Taught> read_taught(const std::filesystem::path& profiles,
                           const std::optional<std::filesystem::path>& roster);

/// All submissions in an inbox, sorted by id; Fault::io when it can't be read.
Result<std::vector<intake::Location>> submissions_in(const std::filesystem::path& inbox);

/// How many threads are meant by that: 0 is one a core.
unsigned workers_meant(unsigned asked);

/// What becomes of a submission over which a library threw: it is set aside like any other. As a
/// fault of this machine, since it may be one: the next run tries again.
Error not_worked_through(const std::exception& thrown);

}  // namespace rangecheck::inbox
