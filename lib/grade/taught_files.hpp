// SPDX-License-Identifier: MIT
// All files of a profiles folder, read by the one reader that there is of them, with every fault
// that it finds: grade::load_profiles tells the first, `profile lint` all. Inside grade only.
#pragma once

#include <filesystem>
#include <span>
#include <string>
#include <vector>

#include "grade/profile_file.hpp"

namespace rangecheck::grade {

/// A file of the folder, under the name that errors call it by.
struct Source {
  std::string name;  ///< relative to the folder, with '/'
  std::string text;
  YAML::Node document;
};

/// A profile that lies elsewhere and is read as if it were in the folder.
struct OtherFile {
  std::filesystem::path path;
  std::string name;  ///< as errors call it
};

struct TaughtFiles {
  std::vector<std::string> names;  ///< of the files, as errors call them
  ProfileSet set;
  Known known;                      ///< points into `set`
  std::vector<ProfilePart> parts;   ///< in order of the files' names
  std::vector<ProfilePart> merged;  ///< each with what it extends, in the same order
  Faults faults;                    ///< with any, the rest holds what could be read
};

/// What hangs on a file that could not be read is not complained of: clubs.yaml and measures.yaml
/// give profiles their words, and a file that is no YAML may be what others extend.
TaughtFiles read_taught_files(const std::filesystem::path& folder,
                              std::span<const OtherFile> others = {});

}  // namespace rangecheck::grade
