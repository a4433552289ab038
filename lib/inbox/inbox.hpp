// SPDX-License-Identifier: MIT
// Inbox drives: it finds submissions, grades each on its own, publishes whole files, sets bad ones
// aside with a reason and goes on. The only room that writes to disk.
#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "grade/profile.hpp"
#include "intake/submission.hpp"
#include "report/report.hpp"

namespace rangecheck::inbox {

/// How far a run is; reported once for every submission, never two at a time.
struct Progress {
  std::size_t done = 0, of = 0;
  std::string_view submission;
  const Error* set_aside = nullptr;  ///< why, or nullptr when it was graded
  double took_s = 0;                 ///< on the clock; other workers' work may be in it
};

/// A checked job: what `rangecheck grade` asks for.
struct Job {
  std::filesystem::path inbox, profiles, out;
  std::optional<std::filesystem::path> roster;
  /// The key by which outputs have pseudonyms in place of names and ids; it is begun where it is
  /// missing. Nothing: outputs have names.
  std::optional<std::filesystem::path> pseudonyms = {};
  unsigned workers = 0;            ///< 0: one per core
  std::string length_unit = "in";  ///< "in" or "cm"
  std::string language = "en";     ///< of students for whom the roster names none: a shipped one
  std::function<void(const Progress&)> on_progress;  ///< may be empty
};

struct Night {
  std::vector<report::Graded> graded;       ///< by submission id
  std::vector<report::SetAside> set_aside;  ///< by submission id
};

/// Where the history of the runs into OUT is.
std::filesystem::path history_file(const std::filesystem::path& out);

/// Version of the program, for outputs and `--version`.
std::string_view version();

/// One submission through every room up to the grade.
Result<report::Graded> grade_one(const intake::Submission& submission,
                                 const grade::ProfileSet& profiles);

/// The whole run. Writes OUT/students/ID/report.txt, page.html and result.json as each is done,
/// then OUT/checks.csv, OUT/submissions.csv and OUT/rangecheck.xlsx, by id, so that the number of
/// workers changes no byte; and OUT/set-aside/ID.txt. Each grade is kept in OUT/history.sqlite as
/// well. What an earlier run left in OUT about a submission of this inbox is replaced: the report
/// of one that is now set aside goes, so that nobody sends it by mistake; what is about others
/// stays. An error only when nothing could run at all: Fault::io when the inbox can't be read or
/// OUT not be written, Fault::bad_value when OUT lies in the inbox or is not one for these
/// pseudonyms, else the fault of profiles or roster. Bad submissions are in Night::set_aside.
Result<Night> run(const Job& job);

}  // namespace rangecheck::inbox
