// SPDX-License-Identifier: MIT
// What the tables, the coach's page among them, say of one submission: little, however long its
// films are, so that it can be kept and tables be made again without grading anything.
#pragma once

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/publish.hpp"
#include "base/result.hpp"
#include "grade/filming.hpp"
#include "grade/grade.hpp"

namespace rangecheck::report {

struct Graded;

/// How many of the positions that are judged the films show, and how many are judged.
struct PositionCount {
  std::size_t found = 0, judged = 0;
  bool operator==(const PositionCount&) const = default;
};

/// A check as tables name it.
struct NamedCheck {
  std::string id, rule;  ///< as grade::Check has them
  std::string title;
  bool is_registered = false;  ///< the title is the rule's, not one of the coach's own
  std::optional<Position> position;
  bool operator==(const NamedCheck&) const = default;
};

/// A line of the coach's tables.
struct Summary {
  std::string submission, student;
  std::string name;  ///< of the student; may be empty
  std::string received, club, swing, profile;
  std::optional<double> percent;  ///< nothing: no grade
  double percent_uncertainty = 0;
  double seen_share = 0;
  PositionCount positions;
  grade::FilmVerdict films = grade::FilmVerdict::not_known;  ///< of the worse one
  std::vector<NamedCheck> work_on;                           ///< main first
  bool operator==(const Summary&) const = default;
};

/// A line of the table of checks.
struct CheckEntry {
  NamedCheck check;
  std::string region;
  Dimension dimension = Dimension::angle;
  std::string unit;  ///< symbol that the band was written in
  grade::Band band;
  std::vector<std::string> accept;
  double weight = 1;
  grade::Verdict verdict = grade::Verdict::not_seen;
  std::optional<double> value_si;
  double standard_uncertainty_si = 0;
  std::string word;
  double probability_inside = 0, score = 0;
  std::string reason, remedy;  ///< in English
  bool operator==(const CheckEntry&) const = default;
};

struct Entry {
  Summary summary;
  std::vector<CheckEntry> checks;  ///< as the grade orders them
};

Entry entry_of(const Graded& graded);

/// Bytes for a file of this program. They are the same on every machine with the same byte order.
std::string packed(const Summary& summary);
std::string packed(std::span<const CheckEntry> checks);
/// What was packed; Fault::io when the bytes are not whole.
Result<Summary> unpacked_summary(std::string_view bytes);
Result<std::vector<CheckEntry>> unpacked_checks(std::string_view bytes);

/// Calls its argument with each submission of a run, in order of id. One at a time is in memory.
using Entries = std::function<Result<Nothing>(const std::function<void(const Entry&)>&)>;

/// Those of submissions that are in memory anyway, and stay there.
Entries entries_of(std::span<const Graded> graded);

}  // namespace rangecheck::report
