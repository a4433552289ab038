// SPDX-License-Identifier: MIT
#pragma once

#include <doctest/doctest.h>
#include <stdlib.h>

#include <filesystem>
#include <string>

namespace rangecheck::test {

/// A folder of its own under the system's temporary one, gone at the end.
class Scratch {
 public:
  Scratch() {
    std::string name = (std::filesystem::temp_directory_path() / "rangecheck-XXXXXX").string();
    REQUIRE(::mkdtemp(name.data()) != nullptr);
    path = name;
  }
  ~Scratch() {
    std::error_code ignored;
    std::filesystem::remove_all(path, ignored);
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;

  std::filesystem::path path;
};

}  // namespace rangecheck::test
