// SPDX-License-Identifier: MIT
// What the files that talk to the system share. For this room only.
#pragma once

#include <unistd.h>

#include <cerrno>
#include <string>
#include <string_view>
#include <system_error>
#include <utility>

namespace rangecheck {

/// A file descriptor that closes itself.
class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  Descriptor(Descriptor&& other) noexcept : number_(other.release()) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (number_ >= 0) ::close(number_);
  }
  int get() const { return number_; }
  explicit operator bool() const { return number_ >= 0; }
  /// Hands the descriptor over to someone else who closes it.
  int release() { return std::exchange(number_, -1); }

 private:
  int number_;
};

/// What the system calls an error.
inline std::string words_of(int error_number) {
  return std::generic_category().message(error_number);
}

/// Writes all of it; the error number, or 0.
inline int write_all(int descriptor, std::string_view content) {
  while (!content.empty()) {
    const ssize_t written = ::write(descriptor, content.data(), content.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return errno;
    content.remove_prefix(static_cast<std::size_t>(written));
  }
  return 0;
}

}  // namespace rangecheck
