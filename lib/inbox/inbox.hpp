// SPDX-License-Identifier: MIT
// Inbox drives: it finds submissions, grades each on its own, publishes whole files, sets bad ones
// aside with a reason and goes on. The only room that writes to disk.
#pragma once

#include <chrono>
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
  std::string_view submission = {};
  /// It was graded now. Gone when the call returns, and so is the next.
  const report::Graded* graded = nullptr;
  const report::SetAside* set_aside = nullptr;  ///< why it was, now or earlier, or why it waits
  bool unchanged = false;  ///< since it was last worked through: there was nothing to do
  double took_s = 0;       ///< on the clock; other workers' work may be in it
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
  std::function<void(const Progress&)> on_progress = {};  ///< may be empty
  /// Submissions to work through although nothing has changed, as the inbox calls them; an empty
  /// list stands for all.
  std::optional<std::vector<std::string>> redo = {};
  /// For so long after a file of it has changed, a submission that can't be graded waits: it may be
  /// half an upload.
  std::chrono::seconds settle = {};
};

/// What a run found: all submissions of the inbox, those included that were not worked through
/// again. It does not grow with the length of films.
struct Night {
  std::vector<report::Summary> graded;      ///< by submission id
  std::vector<report::SetAside> set_aside;  ///< by submission id; those that wait are not in it
  std::vector<report::SetAside> waiting;    ///< by submission id
  std::size_t unchanged = 0;                ///< of `graded` and `set_aside`
};

/// Where the history of the runs into OUT is.
std::filesystem::path history_file(const std::filesystem::path& out);
/// Where what a run writes for programs is: a submission's result, and the table of all.
std::filesystem::path result_file(const std::filesystem::path& out, const std::string& submission);
std::filesystem::path wide_table_file(const std::filesystem::path& out);

/// Version of the program, for outputs and `--version`.
std::string_view version();

/// One submission through every room up to the grade.
Result<report::Graded> grade_one(const intake::Submission& submission,
                                 const grade::ProfileSet& profiles);

/// The whole run. Writes OUT/students/ID/report.txt, page.html and result.json as each is done,
/// then OUT/checks.csv, OUT/submissions.csv, OUT/coach.html and OUT/rangecheck.xlsx, by id, so that
/// the number of workers changes no byte; and OUT/set-aside/ID.txt. Each grade is kept in
/// OUT/history.sqlite as well, with what it hangs on: a submission of which all of that is as it
/// was, and whose outputs are there, is neither read nor written, and neither are tables that would
/// say the same. What an earlier run left in OUT about a submission of this inbox is replaced: the
/// report of one that is now set aside goes, so that nobody sends it by mistake; what is about
/// others stays, and so does everything about one that waits. Killed at any moment, the next run
/// completes it. An error only when nothing could run at all: Fault::io when the inbox can't be
/// read, OUT not be written or another run is at work there, Fault::bad_value when OUT lies in the
/// inbox or is not one for these pseudonyms, or `redo` names what is not there, else the fault of
/// profiles or roster. Bad submissions are in Night::set_aside.
Result<Night> run(const Job& job);

}  // namespace rangecheck::inbox
