// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <string_view>

#include "base/result.hpp"

namespace rangecheck {

/// Makes `folder` and what is missing above it, with mode 0700 whatever the umask; what is there
/// already stays as it is.
Result<Nothing> make_private_folders(const std::filesystem::path& folder);

/// Whether the name is that of a file or folder that `publish` or `publish_made` has not yet put in
/// its place.
bool is_unpublished(const std::filesystem::path& path);

/// Removes what killed programs of this user left of those in `folder`. What a program is still
/// writing stays; so does what can't be removed, for the next time.
void remove_leftovers(const std::filesystem::path& folder);

/// What to do about an error of the system with which `path` could not be written.
std::string disk_remedy(int error_number, const std::filesystem::path& path);

/// Makes `content` the whole of `path`, or leaves `path` as it was: writes a temporary file beside
/// it (mode 0600), fsyncs, renames, fsyncs the folder. Creates missing folders with mode 0700.
Result<Nothing> publish(const std::filesystem::path& path, std::string_view content);

/// The same for what a library writes by itself: `make` is given the path of a file that it is to
/// make, in an empty folder beside `path` (mode 0700) where it may keep other files meanwhile. What
/// `make` fails with is handed on, and `path` stays as it was.
Result<Nothing> publish_made(
    const std::filesystem::path& path,
    const std::function<Result<Nothing>(const std::filesystem::path&)>& make);

}  // namespace rangecheck
