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
namespace {

int flag_of(FolderLock::Kind kind) { return kind == FolderLock::Kind::shared ? LOCK_SH : LOCK_EX; }

}  // namespace

Result<FolderLock> FolderLock::wait(const std::filesystem::path& folder, Kind kind) {
  return lock(folder, flag_of(kind));
}

Result<FolderLock> FolderLock::now(const std::filesystem::path& folder, Kind kind) {
  return lock(folder, flag_of(kind) | LOCK_NB);
}

Result<FolderLock> FolderLock::lock(const std::filesystem::path& folder, int how) {
  const auto refused = [&](std::string what, std::string remedy) {
    Error error{Fault::io, std::move(what), {}, std::move(remedy)};
    error.where.file = printable(folder.string());
    return error;
  };
  FolderLock held(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  int failed = held.descriptor_ < 0 ? errno : 0;
  while (failed == 0 && ::flock(held.descriptor_, how) != 0) {
    if (errno != EINTR) failed = errno;
  }
  if (failed == 0) return held;
  if (failed == EWOULDBLOCK)
    return refused("another rangecheck is at work there", "wait until it is done");
  return refused("can't be opened: " + std::generic_category().message(failed),
                 "check its name and who may read it");
}

FolderLock::FolderLock(FolderLock&& other) noexcept
    : descriptor_(std::exchange(other.descriptor_, -1)) {}

FolderLock::~FolderLock() {
  if (descriptor_ >= 0) ::close(descriptor_);
}

}  // namespace rangecheck
