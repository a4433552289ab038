// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <functional>
#include <string>

#include "report/report.hpp"

namespace rangecheck::inbox {

/// One line for one submission of the inbox.
struct Packed {
  std::string submission, line;
  /// Why the line is no record but says that; or nullptr.
  const report::SetAside* set_aside = nullptr;
};

/// Gives `take` a line for each submission in order of id: its record (intake/record.hpp) with the
/// student's earlier ones of the same club and swing, or, where it can be none, what says so in
/// place of a result. One submission and its earlier ones are in memory at a time. False from
/// `take` ends it. Fault::io when the inbox can't be read.
Result<Nothing> pack(const std::filesystem::path& inbox,
                     const std::function<bool(const Packed&)>& take);

}  // namespace rangecheck::inbox
