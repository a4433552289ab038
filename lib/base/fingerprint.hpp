// SPDX-License-Identifier: MIT
#pragma once

#include <fmt/format.h>

#include <cstdint>
#include <string>
#include <string_view>

namespace rangecheck {

/// FNV-1a, 64 bits (Fowler, Noll, Vo; draft-eastlake-fnv): enough to tell whether a file was
/// edited, no protection against someone who wants two folders to look alike.
class Fingerprint {
 public:
  void add(std::string_view bytes) {
    add_bytes(std::to_string(bytes.size()) + ":");  // so that "ab" + "c" isn't "a" + "bc"
    add_bytes(bytes);
  }
  std::string hex() const { return fmt::format("{:016x}", state_); }

 private:
  void add_bytes(std::string_view bytes) {
    for (const char c : bytes) state_ = (state_ ^ static_cast<unsigned char>(c)) * 0x100000001b3u;
  }
  std::uint64_t state_ = 0xcbf29ce484222325u;
};

}  // namespace rangecheck
