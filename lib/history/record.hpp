// SPDX-License-Identifier: MIT
// History is what was found at each submission, kept from night to night, and how a student goes
// along. It knows students by id only, grades nothing and writes no report.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "grade/grade.hpp"

namespace rangecheck::history {

/// What one check found that time.
struct CheckRecord {
  std::string id;     ///< as grade::Check has it
  std::string title;  ///< without its position
  std::optional<Position> position;
  Dimension dimension = Dimension::angle;
  std::string unit;  ///< symbol that the coach's band is written in
  grade::Verdict verdict = grade::Verdict::not_seen;
  std::optional<double> value_si;  ///< numeric, and seen
  double standard_uncertainty_si = 0;
  grade::Band band;  ///< as it was for this student that time

  bool operator==(const CheckRecord&) const = default;
};

/// One grading of one submission.
struct Record {
  std::string submission, student;
  std::string received;  ///< as the submission has it, an ISO 8601 date or date-time; may be empty
  std::string club, swing, profile;
  std::string version;  ///< of rangecheck
  /// Hashes of the submission's files, and of all else that the grade hangs on; empty in records of
  /// versions that did not note them.
  std::string inputs = {}, taught = {};
  std::optional<double> percent;  ///< nothing: no grade
  double percent_uncertainty = 0;
  std::vector<std::string> work_on;  ///< ids of checks, main first
  std::vector<CheckRecord> checks;   ///< as grade::Grade orders them

  bool operator==(const Record&) const = default;
};

/// What is kept of `check`: of a value that a report does not show, nothing.
CheckRecord record_of(const grade::CheckResult& check);

}  // namespace rangecheck::history
