// SPDX-License-Identifier: MIT
// Messages without what tells who somebody is.
#pragma once

#include <map>
#include <string>
#include <string_view>

#include "base/message.hpp"
#include "intake/submission.hpp"

namespace rangecheck::inbox {

/// What to write in place of a word or name.
using Masks = std::map<std::string, std::string>;

/// `text` with every key of `masks` replaced where it stands as a word: not inside a longer one.
/// Longer keys go first.
std::string masked(std::string_view text, const Masks& masks);

/// The same with all in it that somebody wrote.
Message masked(Message message, const Masks& masks);

/// A file's name of which only the program's own words are left: "Mara_face-on.json" becomes
/// "…_face-on.json".
std::string plain_file_name(std::string_view name);

/// The error of a submission that is called `pseudonym`: places stay, words that people wrote
/// (which messages have in quotation marks), names of files and JSON pointers go.
Error masked(Error error, const intake::Location& location, const std::string& pseudonym,
             const Masks& masks);

}  // namespace rangecheck::inbox
