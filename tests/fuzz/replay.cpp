// SPDX-License-Identifier: MIT
// A fuzzer without libFuzzer: works through files, and folders of them, once. That is how the
// ordinary builds test what fuzzing has found.
#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <vector>

#include "fuzz.hpp"

namespace fs = std::filesystem;

int main(int count, char** arguments) {
  std::vector<fs::path> files;
  for (int i = 1; i < count; ++i) {
    if (!fs::is_directory(arguments[i])) files.emplace_back(arguments[i]);
    if (!fs::is_directory(arguments[i])) continue;
    for (const auto& entry : fs::recursive_directory_iterator(arguments[i]))
      if (entry.is_regular_file()) files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  for (const auto& file : files) {
    std::printf("%s\n", file.c_str());
    std::fflush(stdout);
    std::ifstream stream(file, std::ios::binary);
    const std::vector<char> bytes{std::istreambuf_iterator<char>(stream), {}};
    // A copy of just that size, so that a read beyond the end is seen.
    const std::vector<std::uint8_t> input(bytes.begin(), bytes.end());
    LLVMFuzzerTestOneInput(input.data(), input.size());
  }
  // An empty folder would be a test that can't fail.
  return files.empty() ? 1 : 0;
}
