// SPDX-License-Identifier: MIT
#include "intake/landmark_files.hpp"

#include "base/text.hpp"
#include "intake/errors.hpp"
#include "intake/loose_name.hpp"

namespace rangecheck::intake {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_files = 100'000;

}  // namespace

Result<std::vector<NamedFile>> landmark_files_at(const Files& files, const std::string& path,
                                                 const std::string& name) {
  if (auto error = files.refused(path, name)) return *std::move(error);
  if (!files.is_folder(path)) return std::vector<NamedFile>{{path, name}};
  const auto names = files.names_in(path, name);
  if (!names) return names.error();
  std::vector<NamedFile> found;
  for (const std::string& file_name : *names) {
    if (file_name.starts_with('.') || !is_landmark_name(file_name)) continue;
    found.push_back({(fs::path(path) / file_name).string(), name + '/' + printable(file_name)});
    if (found.size() > most_files) {
      return error_at(name, Fault::not_a_film, "holds more than 100000 files");
    }
  }
  if (found.empty()) {
    return error_at(name, Fault::not_a_film, "holds no landmark files (.json, one a frame)");
  }
  return found;
}

Result<std::vector<LandmarkText>> read_landmark_files(const Files& files, const std::string& path,
                                                      const std::string& name) {
  const auto found = landmark_files_at(files, path, name);
  if (!found) return found.error();
  std::vector<LandmarkText> texts;
  std::size_t left = largest_film;
  for (const NamedFile& file : *found) {
    auto bytes = files.read(file.path, file.name, left);
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

Result<std::vector<LandmarkText>> read_landmark_files(const fs::path& path,
                                                      const std::string& name) {
  return read_landmark_files(FolderFiles("", FolderFiles::Links::lead_anywhere), path.string(),
                             name);
}

}  // namespace rangecheck::intake
