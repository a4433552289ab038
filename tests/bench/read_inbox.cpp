// SPDX-License-Identifier: MIT
// Reads all landmark files of an inbox one after another and does nothing more:
//   read_inbox bytes|walk|tape|events|document|intake INBOX [SUBMISSIONS]
// Prints how many films there were, and the sum of what was in them, so that readers can be
// compared.
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "intake/landmarks.hpp"
#include "readers.hpp"

namespace {

namespace fs = std::filesystem;
namespace bench = rangecheck::bench;
namespace intake = rangecheck::intake;

using Use = std::function<double(const std::vector<intake::LandmarkText>&)>;

Use with(double (*read)(const std::string&)) {
  return [read](const std::vector<intake::LandmarkText>& files) { return read(files[0].bytes); };
}

/// How many points were seen.
double by_intake(const std::vector<intake::LandmarkText>& files) {
  const auto film = intake::read_landmarks(files, {.image = intake::ImageSize{1080, 1920}});
  double points = 0;
  for (const auto& frame : film->frames)
    for (const auto& person : frame.people)
      points += static_cast<double>(std::ranges::count_if(
          person.image.values(), [](const auto& point) { return point.has_value(); }));
  return points;
}

const std::map<std::string, Use> readers = {
    {"bytes", [](const auto& files) { return static_cast<double>(files[0].bytes.size()); }},
    {"walk", with(bench::by_walk)},
    {"tape", with(bench::by_tape)},
    {"events", with(bench::by_events)},
    {"document", with(bench::by_document)},
    {"intake", by_intake}};

std::vector<fs::path> submissions_in(const fs::path& inbox, std::size_t most) {
  std::vector<fs::path> folders;
  for (const auto& entry : fs::directory_iterator(inbox)) folders.push_back(entry.path());
  std::ranges::sort(folders);
  folders.resize(std::min(most, folders.size()));
  return folders;
}

}  // namespace

int main(int argc, char** argv) {
  const auto reader = argc > 2 ? readers.find(argv[1]) : readers.end();
  if (reader == readers.end()) {
    std::fputs("read_inbox bytes|walk|tape|events|document|intake INBOX [SUBMISSIONS]\n", stderr);
    return 2;
  }
  std::size_t films = 0;
  double sum = 0;
  for (const auto& folder : submissions_in(argv[2], argc > 3 ? std::stoul(argv[3]) : SIZE_MAX)) {
    for (const char* name : {"down-the-line.json", "face-on.json"}) {
      const auto files = intake::read_landmark_files(folder / name, name);
      if (!files) {
        fmt::print(stderr, "read_inbox: {}\n", to_string(files.error()));
        return 3;
      }
      sum += reader->second(*files);
      ++films;
    }
  }
  fmt::print("{} films, sum {:.3f}\n", films, sum);
}
