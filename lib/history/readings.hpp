// SPDX-License-Identifier: MIT
// A grading that a person wrote down: a coach's own readings, in a table.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "history/record.hpp"

namespace rangecheck::history {

/// The columns that a table of readings may have: those of checks.csv, so that rows of one are a
/// table of readings too. Read are submission (or student, where there is no such column), check,
/// position, value, unit, u and verdict; the others may stand there.
std::span<const std::string_view> readings_columns();

/// Reads RFC 4180 with a line of column names first. Needed are submission or student, check, value
/// and unit; an empty value is one that was not read. A check goes by its id, with its position
/// before it (`top/shoulder-turn`), in the column position, or at address; known are the catalogue,
/// a launch monitor's readings and the checks in `known`. One record a submission, with student
/// alone one a student, in the order in which they come up.
///
/// Fault::bad_value with `file`, line and column: unknown columns, checks, units and verdicts,
/// units of another dimension, what is no finite number or beyond all measure, a check twice.
Result<std::vector<Record>> read_readings(std::string_view text, const std::string& file,
                                          std::span<const Record> known = {});

}  // namespace rangecheck::history
