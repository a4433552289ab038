// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

#include "inbox/traces.hpp"

namespace rangecheck::inbox {

/// What `rangecheck forget` asks for.
struct Forgetting {
  std::string student;  ///< as outputs call them
  std::filesystem::path out;
  std::optional<std::filesystem::path> pseudonyms;  ///< also take them out of this key
  bool only_look = false;
};

struct Forgotten {
  Traces traces;
  std::size_t key_lines = 0;
};

/// Removes a student from OUT: from the history, every report and message of theirs, their rows of
/// the tables, and whole what holds everybody in one piece. Files that are not this program's stay,
/// and so does what Traces::doubtful names. Killed at any moment, the same call again completes it.
/// With `only_look` nothing is removed.
/// Fault::bad_value when OUT knows no such student, with the nearest whom it knows; Fault::io when
/// a run is at work there, a link is in the way, or something can't be removed.
Result<Forgotten> forget(const Forgetting& what);

}  // namespace rangecheck::inbox
