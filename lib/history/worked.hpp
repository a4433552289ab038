// SPDX-License-Identifier: MIT
// The ledger: what each submission was last worked through with, so that the same is not done
// twice. It is a part of the history file and lives and goes with it.
#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"

namespace rangecheck::history {

/// How a submission was last worked through, under the names that outputs use.
struct Worked {
  std::string submission = {};
  std::string student = {};  ///< empty: not known
  std::string received = {};
  /// By which its profile was chosen and fitted; of graded ones only.
  std::string club = {}, swing = {}, style = {};
  std::vector<std::string> limits = {};
  /// What tells without reading that no file has changed, and a hash of all that is in them.
  std::string stamp = {}, inputs = {};
  /// Hashes of all else that the grade hangs on, and of what its pages alone do.
  std::string taught = {}, shown = {};
  std::string summary = {};         ///< what tables say of it; bytes that are the reports' affair
  std::optional<Error> error = {};  ///< why it was set aside; nothing: it was graded
};

/// The last grading of a submission.
struct Last {
  std::int64_t id = 0;  ///< of the record, which never changes and is never given again
  std::string submission, student, received, club, swing;
  std::chrono::sys_seconds first_recorded;  ///< of this student's
};

}  // namespace rangecheck::history
