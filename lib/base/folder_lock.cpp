// SPDX-License-Identifier: MIT
#include "base/folder_lock.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <system_error>
#include <utility>

#include "base/text.hpp"

namespace rangecheck {

Result<FolderLock> FolderLock::wait(const std::filesystem::path& folder) {
  auto held = lock(folder, LOCK_EX);
  if (!held) return held.error();
  return **std::move(held);
}

Result<std::optional<FolderLock>> FolderLock::now(const std::filesystem::path& folder) {
  return lock(folder, LOCK_EX | LOCK_NB);
}

Result<std::optional<FolderLock>> FolderLock::lock(const std::filesystem::path& folder, int how) {
  FolderLock held(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  int failed = held.descriptor_ < 0 ? errno : 0;
  while (failed == 0 && ::flock(held.descriptor_, how) != 0) {
    if (errno != EINTR) failed = errno;
  }
  if (failed == 0) return std::optional(std::move(held));
  if (failed == EWOULDBLOCK) return std::optional<FolderLock>();
  Error error{Fault::io,
              "can't be opened: " + std::generic_category().message(failed),
              {},
              "check its name and who may read it"};
  error.where.file = printable(folder.string());
  return error;
}

FolderLock::FolderLock(FolderLock&& other) noexcept
    : descriptor_(std::exchange(other.descriptor_, -1)) {}

FolderLock::~FolderLock() {
  if (descriptor_ >= 0) ::close(descriptor_);
}

}  // namespace rangecheck
