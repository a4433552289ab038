// SPDX-License-Identifier: MIT
// What every fuzzer holds its reader to, beside not crashing: an error that a person can act on,
// and the same answer to the same bytes.
#pragma once

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace rangecheck::fuzz {

/// Ends the program with a word, which the fuzzer takes for a crash, unless `holds`.
void hold(bool holds, std::string_view what);

/// The error names the file, or one below it, says what is wrong, and is one printable line that
/// no hostile file can make long.
void hold_error(const Error& error, std::string_view file);

/// Every number is finite and no farther from 0 than `most`.
void hold_within(std::initializer_list<double> numbers, double most);

std::string_view text_of(const std::uint8_t* data, std::size_t size);

/// The parts between bytes of 0, which no text has: several files in one input.
std::vector<std::string> files_in(std::string_view bytes);

/// A folder of the process, gone at its end.
class Folder {
 public:
  Folder();
  ~Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  /// Makes `content` the whole of a file, in folders that it makes, and returns its path.
  std::filesystem::path write(std::string_view name, std::string_view content) const;
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

}  // namespace rangecheck::fuzz

/// libFuzzer's entry, one to a fuzzer.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);
