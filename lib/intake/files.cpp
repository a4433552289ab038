// SPDX-License-Identifier: MIT
#include "intake/files.hpp"

#include <algorithm>
#include <system_error>

#include "base/read_file.hpp"
#include "intake/errors.hpp"

namespace rangecheck::intake {
namespace {

namespace fs = std::filesystem;

/// True when `path`, with all links followed, is inside `folder`.
bool is_within(const fs::path& path, const fs::path& folder) {
  std::error_code failed;
  const fs::path whole = fs::canonical(path, failed);
  if (failed) return true;  // not there: reading says so
  const fs::path root = fs::canonical(folder, failed);
  if (failed) return false;
  return std::mismatch(root.begin(), root.end(), whole.begin(), whole.end()).first == root.end();
}

/// What every path in `folder` begins with.
std::string stem_of(const std::string& folder) { return folder.empty() ? "" : folder + '/'; }

}  // namespace

bool FolderFiles::has(const std::string& path) const {
  std::error_code failed;
  return fs::exists(fs::symlink_status(folder_ / path, failed));
}

bool FolderFiles::is_folder(const std::string& path) const {
  std::error_code failed;
  return fs::is_directory(folder_ / path, failed);
}

std::optional<Error> FolderFiles::refused(const std::string& path, const std::string& name) const {
  if (links_ == Links::lead_anywhere) return std::nullopt;
  std::error_code failed;
  if (path == manifest_name && fs::is_symlink(folder_ / path, failed))
    return error_at(name, Fault::bad_value, "is a link", "copy the file itself");
  if (fs::is_symlink(folder_ / path, failed) && !fs::exists(folder_ / path, failed))
    return error_at(name, Fault::bad_value, "is a link that leads nowhere",
                    "put the file itself there");
  if (is_within(folder_ / path, folder_)) return std::nullopt;
  return error_at(name, Fault::bad_value, "is a link that leads out of the submission's folder");
}

Result<std::vector<std::string>> FolderFiles::names_in(const std::string& folder,
                                                       const std::string& name) const {
  std::vector<std::string> names;
  std::error_code failed;
  fs::directory_iterator entries(folder_ / folder, failed);
  for (; !failed && entries != fs::directory_iterator(); entries.increment(failed))
    names.push_back(entries->path().filename().string());
  if (failed) return error_at(name, Fault::unreadable, "can't be read: " + failed.message());
  std::sort(names.begin(), names.end());
  return names;
}

Result<std::string> FolderFiles::read(const std::string& path, const std::string& name,
                                      std::size_t limit) const {
  if (auto error = refused(path, name)) return *std::move(error);
  return read_file(folder_ / path, name, limit);
}

Result<std::string> FolderFiles::bytes(const std::string& path, const std::string& name,
                                       std::size_t limit) const {
  if (auto error = refused(path, name)) return *std::move(error);
  return read_bytes(folder_ / path, name, limit);
}

bool CarriedFiles::has(const std::string& path) const {
  return contents_.contains(plain_path(path)) || is_folder(path);
}

bool CarriedFiles::is_folder(const std::string& path) const {
  const std::string plain = plain_path(path);
  if (contents_.contains(plain)) return false;
  const std::string stem = stem_of(plain);
  const auto inside = contents_.lower_bound(stem);
  return plain.empty() || (inside != contents_.end() && inside->first.starts_with(stem));
}

std::optional<Error> CarriedFiles::refused(const std::string& path, const std::string& name) const {
  const auto found = contents_.find(plain_path(path));
  if (found == contents_.end() || !found->second || *found->second) return std::nullopt;
  Error error = found->second->error();
  error.where.file = name;
  return error;
}

Result<std::vector<std::string>> CarriedFiles::names_in(const std::string& folder,
                                                        const std::string&) const {
  std::vector<std::string> names;
  const std::string stem = stem_of(plain_path(folder));
  for (auto each = contents_.lower_bound(stem);
       each != contents_.end() && each->first.starts_with(stem); ++each) {
    const std::string below = each->first.substr(stem.size());
    const std::string name = below.substr(0, below.find('/'));
    if (!name.empty()) names.push_back(name);
  }
  // A folder's own entry may stand apart from what is in it: "a/", "a.json", "a/b".
  std::sort(names.begin(), names.end());
  names.erase(std::unique(names.begin(), names.end()), names.end());
  return names;
}

Result<std::string> CarriedFiles::read(const std::string& path, const std::string& name,
                                       std::size_t limit) const {
  if (auto error = refused(path, name)) return *std::move(error);
  const auto found = contents_.find(plain_path(path));
  if (found == contents_.end())
    return error_at(name, Fault::unreadable, is_folder(path) ? "isn't a file" : "isn't there");
  if (!found->second)
    return error_at(name, Fault::unreadable, "is named in the record without what is in it");
  return unpacked(**found->second, name, limit);
}

std::string plain_path(const std::string& path) {
  std::string plain = fs::path(path).lexically_normal().generic_string();
  if (plain.ends_with('/')) plain.pop_back();
  return plain == "." ? "" : plain;
}

}  // namespace rangecheck::intake
