// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>

#include "base/result.hpp"

namespace rangecheck {

/// Keeps a folder for as long as it lives, against other programs that ask in the same way: any
/// number may share it, or one has it alone. The system lets go of it when a program is killed.
class FolderLock {
 public:
  enum class Kind { shared, alone };

  /// Waits for those who have it now.
  static Result<FolderLock> wait(const std::filesystem::path& folder, Kind kind);
  /// Fault::io at once when someone has it.
  static Result<FolderLock> now(const std::filesystem::path& folder, Kind kind);

  FolderLock(FolderLock&& other) noexcept;
  FolderLock& operator=(FolderLock&&) = delete;
  ~FolderLock();

 private:
  explicit FolderLock(int descriptor) : descriptor_(descriptor) {}
  static Result<FolderLock> lock(const std::filesystem::path& folder, int how);

  int descriptor_;
};

}  // namespace rangecheck
