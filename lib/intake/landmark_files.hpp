// SPDX-License-Identifier: MIT
// Landmark files of a submission. Inside intake only.
#pragma once

#include <string>
#include <vector>

#include "intake/files.hpp"
#include "intake/landmarks.hpp"

namespace rangecheck::intake {

struct NamedFile {
  std::string path;
  std::string name;  ///< what errors call it
};

/// The landmark file at `path`, or those of the folder there, in order of name.
Result<std::vector<NamedFile>> landmark_files_at(const Files& files, const std::string& path,
                                                 const std::string& name);

/// The bytes of those, as the public function has it.
Result<std::vector<LandmarkText>> read_landmark_files(const Files& files, const std::string& path,
                                                      const std::string& name);

}  // namespace rangecheck::intake
