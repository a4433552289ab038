// SPDX-License-Identifier: MIT
// What a run would do, told without writing anything.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "inbox/inbox.hpp"

namespace rangecheck::inbox {

/// Why a submission has to be worked through.
enum class Why {
  asked_for,  ///< by Job::redo
  new_here,   ///< nothing is known of it, or an earlier run was killed while it was at it
  files,      ///< its own have changed
  taught,     ///< what it is held against has
  shown,      ///< what its pages alone hang on has, as the student's earlier submissions
  output      ///< what was written about it isn't there any more
};

/// In a few words, for people.
std::string_view told(Why why);

/// A submission of the inbox, and what a run would do with it.
struct Planned {
  std::string submission;
  std::optional<Why> why = {};      ///< nothing: there is nothing to do
  std::optional<Error> error = {};  ///< for which it could not be read
  bool waits = false;               ///< it would wait rather than be set aside
};

/// By submission id. Submissions to be worked through are read, but not graded: one that is set
/// aside only when it is graded is not foretold. One whose earlier submission is worked through is
/// told as `shown`, although that may come to the same. Writes nothing, and does not wait for
/// another run. Fails as `run` does, and with Fault::bad_value where the job has pseudonyms, since
/// those that are missing would have to be written.
Result<std::vector<Planned>> plan(const Job& job);

}  // namespace rangecheck::inbox
