// SPDX-License-Identifier: MIT
// What scripts and CI systems read of a run, beside its data. Submissions and students by id only.
#pragma once

#include <chrono>
#include <map>
#include <optional>
#include <span>
#include <string>

#include "base/result.hpp"
#include "report/report.hpp"

namespace rangecheck::report {

/// An error as one line of JSON in ASCII: "format" (rangecheck-error), "version", "submission"
/// (null: the whole run), and what documents of set-aside submissions say of it: "fault", "what",
/// "file", "line", "frame", "key" and "remedy".
std::string error_json(const Error& error, const std::optional<std::string>& submission);

/// "grade 71.2 ± 11.0 %: surely below 90 %"; for grades that are.
std::string below_text(const Summary& graded, double fail_below_percent);

/// When a run was, and what it was to fail on.
struct RunFacts {
  std::chrono::sys_seconds began;
  double took_s = 0;
  std::map<std::string, double> took_each_s = {};  ///< by submission, as outputs call it
  std::optional<double> fail_below_percent = {};
};

/// A run as JUnit XML: one suite, a case a submission in order of id. A grade surely below the
/// limit is a failure, a submission that was set aside an error, one without a grade or that waits
/// is skipped.
/// Valid against the schema of Apache Ant's reports (github.com/windyroad/JUnit-Schema) and the one
/// of the Jenkins xUnit plugin (junit-10.xsd). Times are UTC.
std::string junit(std::span<const Summary> graded, std::span<const SetAside> set_aside,
                  std::span<const SetAside> waiting, const RunFacts& facts);

/// The same for a run that could not be, or has not ended: its one case is an error.
std::string junit_of_no_run(const Error& error, const RunFacts& facts);

}  // namespace rangecheck::report
