// SPDX-License-Identifier: MIT
// A student's submissions one after the other: what changed, as far as the films can tell.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "history/progress.hpp"

namespace rangecheck::report {

/// For a terminal, 80 columns: for each club and swing the submissions with their grades, what
/// really changed since the one before, and how what was worked on went. The student appears by id.
std::string progress_text(std::string_view student, std::span<const history::Course> courses,
                          std::string_view length_unit = "in");

/// Everything, for programs, one document of its own form: angles in deg, lengths in m.
std::string progress_json(std::string_view student, std::span<const history::Course> courses,
                          std::optional<int> indent = 2);

/// RFC 4180, one row a check and submission that showed it, header line first, CRLF. Changes are
/// those since the reading before; cells that a spreadsheet would run are made safe.
std::string progress_csv(std::string_view student, std::span<const history::Course> courses,
                         std::string_view length_unit = "in");

}  // namespace rangecheck::report
