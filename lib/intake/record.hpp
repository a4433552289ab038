// SPDX-License-Identifier: MIT
// A record is a submission on one line of JSON, with its files in it: what travels to wherever it
// is graded.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace rangecheck::intake {

/// Files by their path inside the submission: their bytes as they are; or why they can't be read
/// (an error without a place); or neither, for what is only known to be there. A name that ends
/// with '/' is a folder's.
using Contents = std::map<std::string, std::optional<Result<std::string>>>;

struct Record {
  std::string id;      ///< of the submission, safe
  bool loose = false;  ///< files are STUDENT_CLUB_SWING_VIEW.json of an inbox, and in no folder
  Contents files;
  /// The student's submissions that arrived before, in that order; they have no earlier ones.
  std::vector<Record> earlier;
};

/// A submission that comes as no record, and why.
struct NoRecord {
  std::string submission;
  Error error;
};

/// Longer lines are no records.
inline constexpr std::size_t longest_record = std::size_t{256} << 20;

/// The record as a line of JSON, with its end; texts that are UTF-8 as such, all else in base64.
/// Fault::bad_value where a file has a name that JSON can't hold, or the line gets too long.
Result<std::string> record_line(const Record& record);

/// Reads one line, whose number (from 1) errors name. In place of a record there may be what says
/// that its submission was set aside, a rangecheck-set-aside document: it comes back as that. A
/// line that is neither comes back as "stdin:NUMBER", which no submission can be called.
Result<Record, NoRecord> read_record(std::string_view line, std::size_t number);
/// What read_record says of a line that was too long to be kept.
NoRecord too_long_record(std::size_t number);

}  // namespace rangecheck::intake
