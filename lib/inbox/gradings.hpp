// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <vector>

#include "base/result.hpp"
#include "history/record.hpp"

namespace rangecheck::inbox {

/// Two gradings to be compared: a record a submission.
struct Gradings {
  std::vector<history::Record> first, second;
};

/// Reads each: a folder that grade wrote to, by the last grade of every submission in its history,
/// whose numbers are not rounded; or a table of readings (history/readings.hpp), in which the
/// checks of the other side are known too. Errors are those of history::Store::open_existing and of
/// history::read_readings; Fault::unreadable when there is no such file.
Result<Gradings> read_gradings(const std::filesystem::path& first,
                               const std::filesystem::path& second);

}  // namespace rangecheck::inbox
