// SPDX-License-Identifier: MIT
// The lines of a profile's checks as they stand in a file. Inside grade only.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "grade/profile_file.hpp"

namespace rangecheck::grade {

/// A key of a check or a head with what it says, and where that was found.
struct Line {
  std::string text;    ///< "target: 14..15 in"
  std::string origin;  ///< "file:line"
};

/// The keys of a check that counts; only `off` of one that does not.
/// `language` is that of the file; sentences of another are marked.
std::vector<Line> lines_of(const CheckPart& check, const std::string& language, const Known& known);

/// All checks as the sections of a profile, each under its own. `lines` gives what stands under a
/// check (without indent; a flow map "{ … }" beside it), none to leave it out; `mark` goes before
/// every line ("# " makes comments).
std::string sections_text(const std::vector<CheckPart>& checks,
                          const std::function<std::vector<std::string>(const CheckPart&)>& lines,
                          std::string_view mark);

}  // namespace rangecheck::grade
