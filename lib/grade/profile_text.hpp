// SPDX-License-Identifier: MIT
// Profiles as text that the reader of profiles understands: one that is there, put together, and a
// starter for a new one.
#pragma once

#include <filesystem>
#include <string>

#include "base/result.hpp"

namespace rangecheck::grade {

/// The head of a profile that is to be written.
struct NewProfile {
  std::string id, club, swing;
  std::string style = {};    ///< empty: the id, so that it takes no other profile's place
  std::string extends = {};  ///< empty: the profile of this club and swing in the default style
  /// Its schema, for editors: from where the file will be.
  std::string schema = "../schemas/profile.schema.json";
};

/// The profile `id` with all that it extends, as YAML. Behind each value stands file and line that
/// it comes from; checks are in order of the swing and from the ground up. Read again it gives the
/// same profile, but for sentences of another language than the profile's own file: they are
/// marked. An error where the folder is faulty or has no such id (with the nearest).
Result<std::string> shown_profile(const std::filesystem::path& folder, const std::string& id);

/// The id of the profile for that club and swing; style "" is the default.
Result<std::string> profile_for(const std::filesystem::path& folder, const std::string& club,
                                const std::string& swing, const std::string& style);

/// A file to start from: it changes nothing yet of what it extends, explains what can be changed,
/// and has every check of that as a comment, the first whole, the others with their numbers. An
/// error where the id or the club can't be, is taken, or there is nothing to extend.
Result<std::string> starter(const std::filesystem::path& folder, NewProfile wanted);

/// `text` as a YAML scalar, in quotation marks where it needs them.
std::string yaml_scalar(const std::string& text);

}  // namespace rangecheck::grade
