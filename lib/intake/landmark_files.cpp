// SPDX-License-Identifier: MIT
#include <algorithm>
#include <system_error>

#include "base/publish.hpp"
#include "base/text.hpp"
#include "intake/landmarks.hpp"
#include "intake/loose_name.hpp"

namespace rangecheck::intake {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_files = 100'000;

Error error_at(const std::string& name, Fault fault, std::string what, std::string remedy = "") {
  return {fault, std::move(what), Place{.file = name, .line = {}, .frame = {}, .key = ""},
          std::move(remedy)};
}

/// True when `path`, with all links followed, is inside `folder`.
bool is_within(const fs::path& path, const fs::path& folder) {
  std::error_code failed;
  const fs::path whole = fs::canonical(path, failed);
  if (failed) return true;  // not there: reading says so
  const fs::path root = fs::canonical(folder, failed);
  if (failed) return false;
  return std::mismatch(root.begin(), root.end(), whole.begin(), whole.end()).first == root.end();
}

/// A file with the name that errors call it by.
struct Named {
  fs::path path;
  std::string name;
};

Result<std::vector<Named>> files_of(const fs::path& path, const std::string& name) {
  std::error_code failed;
  if (!fs::is_directory(path, failed)) return std::vector<Named>{{path, name}};
  std::vector<Named> files;
  fs::directory_iterator entries(path, failed);
  for (; !failed && entries != fs::directory_iterator(); entries.increment(failed)) {
    const std::string file_name = entries->path().filename().string();
    if (file_name.starts_with('.') || !is_landmark_name(file_name)) continue;
    files.push_back({entries->path(), name + '/' + printable(file_name)});
    if (files.size() > most_files) {
      return error_at(name, Fault::not_a_film, "holds more than 100000 files");
    }
  }
  if (failed) return error_at(name, Fault::unreadable, "can't be read: " + failed.message());
  if (files.empty()) {
    return error_at(name, Fault::not_a_film, "holds no landmark files (.json, one a frame)");
  }
  return files;
}

}  // namespace

Result<std::vector<LandmarkText>> read_landmark_files(const fs::path& path, const std::string& name,
                                                      const std::optional<fs::path>& within) {
  const auto outside = [&](const Named& file) { return within && !is_within(file.path, *within); };
  const Named whole{path, name};
  constexpr std::string_view link = "is a link that leads out of the submission's folder";
  if (outside(whole)) return error_at(name, Fault::bad_value, std::string(link));
  const auto files = files_of(path, name);
  if (!files) return files.error();
  std::vector<LandmarkText> texts;
  std::size_t left = largest_film;
  for (const Named& file : *files) {
    if (outside(file)) return error_at(file.name, Fault::bad_value, std::string(link));
    auto bytes = read_file(file.path, file.name, left);
    if (!bytes && bytes.error().what.find("larger") != std::string::npos) {
      return error_at(name, Fault::unreadable, "is larger than 256 MiB",
                      "cut the film to the swing itself");
    }
    if (!bytes) return bytes.error();
    left -= bytes->size();
    texts.push_back({file.name, std::move(*bytes)});
  }
  return texts;
}

}  // namespace rangecheck::intake
