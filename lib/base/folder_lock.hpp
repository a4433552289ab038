// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <optional>

#include "base/result.hpp"

namespace rangecheck {

/// Keeps a folder for as long as it lives, against other programs that ask in the same way. The
/// system lets go of it when a program is killed.
class FolderLock {
 public:
  /// Waits for who has it now.
  static Result<FolderLock> wait(const std::filesystem::path& folder);
  /// Nothing at once when someone has it. Fault::io when the folder can't be opened.
  static Result<std::optional<FolderLock>> now(const std::filesystem::path& folder);

  FolderLock(FolderLock&& other) noexcept;
  FolderLock& operator=(FolderLock&&) = delete;
  ~FolderLock();

 private:
  explicit FolderLock(int descriptor) : descriptor_(descriptor) {}
  static Result<std::optional<FolderLock>> lock(const std::filesystem::path& folder, int how);

  int descriptor_;
};

}  // namespace rangecheck
