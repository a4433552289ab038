// SPDX-License-Identifier: MIT
// Lines from a pipe, each as soon as it is there. Inside inbox only.
#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "base/result.hpp"

namespace rangecheck::inbox {

struct Line {
  std::size_t number = 0;  ///< from 1
  std::string text;        ///< without its end
  bool too_long = false;   ///< there is more than may be kept, and no text
};

class Lines {
 public:
  /// Reads the file `descriptor`, which stays open. Of a line of more than `longest` bytes nothing
  /// is kept.
  Lines(int descriptor, std::size_t longest) : descriptor_(descriptor), longest_(longest) {}

  /// The next line with anything on it, or nothing at the end. Fault::io when reading fails.
  Result<std::optional<Line>> next();

 private:
  Result<bool> fill();
  Result<std::optional<Line>> next_of_any();

  int descriptor_;
  std::size_t longest_, number_ = 0, used_ = 0;
  std::string held_;
};

}  // namespace rangecheck::inbox
