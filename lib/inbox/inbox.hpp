// SPDX-License-Identifier: MIT
// Inbox drives: it finds submissions, grades each on its own, publishes whole files, sets bad ones
// aside with a reason and goes on. The only room that writes to disk.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "grade/profile.hpp"
#include "intake/submission.hpp"
#include "report/report.hpp"

namespace rangecheck::inbox {

/// A checked job: what `rangecheck grade` asks for.
struct Job {
  std::filesystem::path inbox, profiles, out;
  std::optional<std::filesystem::path> roster;
  unsigned workers = 0;            ///< 0: one per core
  std::string length_unit = "in";  ///< "in" or "cm"
};

struct Night {
  std::vector<report::Graded> graded;      ///< by submission id
  std::vector<report::SetAside> set_aside; ///< by submission id
};

/// One submission through every room up to the grade.
Result<report::Graded> grade_one(const intake::Submission& submission,
                                 const grade::ProfileSet& profiles);

/// The whole run. Writes OUT/students/ID/report.txt and result.json, OUT/checks.csv,
/// OUT/submissions.csv, OUT/set-aside/ID.txt. An error only when nothing could run at all (profiles,
/// roster, inbox or output folder unusable); bad submissions are in Night::set_aside.
Result<Night> run(const Job& job);

/// What `rangecheck inspect` prints about one landmark file (or a folder of frame files).
Result<std::string> inspect(const std::filesystem::path& file);

}  // namespace rangecheck::inbox
