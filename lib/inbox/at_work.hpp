// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>

#include "base/folder_lock.hpp"

namespace rangecheck::inbox {

/// An output folder that no other rangecheck changes for as long as this lives. A small file in it
/// says who is at work there; one that a killed program left means nothing.
class AtWork {
 public:
  /// Fault::io at once when another is at work, saying which process, where and since when.
  static Result<AtWork> in(const std::filesystem::path& out);
  AtWork(AtWork&& other) noexcept;
  AtWork& operator=(AtWork&&) = delete;
  ~AtWork();

 private:
  AtWork(FolderLock lock, std::filesystem::path note)
      : lock_(std::move(lock)), note_(std::move(note)) {}

  FolderLock lock_;
  std::filesystem::path note_;  ///< empty: it is another's to remove
};

}  // namespace rangecheck::inbox
