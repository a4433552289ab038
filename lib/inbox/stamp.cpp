// SPDX-License-Identifier: MIT
#include "inbox/stamp.hpp"

#include <sys/stat.h>

#include <algorithm>
#include <system_error>
#include <vector>

#include "base/digest.hpp"
#include "inbox/workers.hpp"

namespace rangecheck::inbox {
namespace {

namespace fs = std::filesystem;

/// Everything in the submission, in order of name; folders are not followed through links. Nothing
/// when a folder can't be read.
std::optional<std::vector<fs::path>> all_in(const intake::Location& location) {
  std::vector<fs::path> paths = location.files;
  std::error_code failed;
  if (location.folder.empty()) return paths;
  paths.push_back(location.folder);
  if (fs::is_symlink(location.folder, failed)) return paths;
  fs::recursive_directory_iterator entries(location.folder, failed);
  for (; !failed && entries != fs::recursive_directory_iterator(); entries.increment(failed))
    paths.push_back(entries->path());
  if (failed) return std::nullopt;
  std::ranges::sort(paths);
  return paths;
}

std::string name_in(const intake::Location& location, const fs::path& path) {
  return location.folder.empty() ? path.filename().string()
                                 : path.lexically_relative(location.folder).string();
}

}  // namespace

Stamp stamp_of(const intake::Location& location) {
  Stamp out;
  const auto paths = all_in(location);
  if (!paths) return out;
  Digest digest;
  for (const auto& path : *paths) {
    struct stat facts {};
    if (::lstat(path.c_str(), &facts) != 0) return out;
    // A link counts with what it leads to as well; one into nowhere only by itself.
    struct stat behind {};
    if (S_ISLNK(facts.st_mode) && ::stat(path.c_str(), &behind) == 0)
      digest.add(behind.st_ino).add(behind.st_size).add(behind.st_mtim.tv_sec);
    digest.add(name_in(location, path)).add(facts.st_ino).add(facts.st_mode);
    // What changes in a folder has a time of its own.
    if (!S_ISDIR(facts.st_mode))
      digest.add(facts.st_size).add(facts.st_mtim.tv_sec).add(facts.st_mtim.tv_nsec);
    const auto since_1970 = std::chrono::seconds(facts.st_mtim.tv_sec) +
                            std::chrono::nanoseconds(facts.st_mtim.tv_nsec);
    out.changed =
        std::max(out.changed,
                 std::chrono::system_clock::time_point(
                     std::chrono::duration_cast<std::chrono::system_clock::duration>(since_1970)));
  }
  out.hash = digest.hex();
  return out;
}

std::vector<Stamp> stamps_of(std::span<const intake::Location> locations, unsigned workers) {
  std::vector<Stamp> stamps(locations.size());
  on_workers(workers, locations.size(), [&](std::size_t i) { stamps[i] = stamp_of(locations[i]); });
  return stamps;
}

std::string contents_hash(const intake::Location& location) {
  const auto paths = all_in(location);
  if (!paths) return "";
  Digest digest;
  for (const auto& path : *paths) {
    std::error_code failed;
    const auto kind = fs::symlink_status(path, failed).type();
    digest.add(name_in(location, path)).add(kind);
    if (fs::is_symlink(path, failed)) digest.add(fs::read_symlink(path, failed).string());
    if (!fs::is_regular_file(path, failed)) continue;
    if (!digest.add_file(path, "")) return "";
  }
  return digest.hex();
}

bool is_recent(const Stamp& stamp, std::chrono::seconds settle,
               std::chrono::system_clock::time_point now) {
  return std::chrono::abs(now - stamp.changed) < settle;
}

}  // namespace rangecheck::inbox
