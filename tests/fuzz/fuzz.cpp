// SPDX-License-Identifier: MIT
#include "fuzz.hpp"

#include <fmt/format.h>
#include <stdlib.h>

#include <cstdio>
#include <fstream>

#include "base/text.hpp"

namespace rangecheck::fuzz {

namespace fs = std::filesystem;

void hold(bool holds, std::string_view what) {
  if (holds) return;
  fmt::print(stderr, "DOES NOT HOLD: {}\n", what);
  std::abort();
}

void hold_error(const Error& error, std::string_view file) {
  const std::string text = to_string(error);
  const auto about = [&](std::string_view what) { return fmt::format("{}: {}", what, text); };
  // Names are cut to 80 bytes and each byte shown in at most four; a few may stand in one error.
  constexpr std::size_t longest = 4000;
  hold(!error.what.empty(), about("an error says what is wrong"));
  hold(error.where.file.starts_with(file), about("an error names the file"));
  hold(printable(text) == text, about("an error is printable"));
  hold(text.size() <= longest, about("an error is short"));
}

void hold_within(std::initializer_list<double> numbers, double most) {
  for (const double number : numbers)
    hold(std::abs(number) <= most, fmt::format("{} is within {}", number, most));
}

std::string_view text_of(const std::uint8_t* data, std::size_t size) {
  return {reinterpret_cast<const char*>(data), size};
}

std::vector<std::string> files_in(std::string_view bytes) {
  std::vector<std::string> files;
  for (const auto part : split(bytes, '\0')) files.emplace_back(part);
  return files;
}

Folder::Folder() {
  std::string name = (fs::temp_directory_path() / "rangecheck-fuzz-XXXXXX").string();
  hold(::mkdtemp(name.data()) != nullptr, "a folder can be made");
  path_ = name;
}

Folder::~Folder() {
  std::error_code ignored;
  fs::remove_all(path_, ignored);
}

fs::path Folder::write(std::string_view name, std::string_view content) const {
  const fs::path file = path_ / name;
  fs::create_directories(file.parent_path());
  std::ofstream(file, std::ios::binary) << content;
  return file;
}

}  // namespace rangecheck::fuzz
