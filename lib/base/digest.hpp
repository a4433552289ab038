// SPDX-License-Identifier: MIT
#pragma once

#include <concepts>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>

#include "base/result.hpp"

namespace rangecheck {

/// XXH3, 128 bits: tells whether two things are the same, as long as nobody tries to make different
/// ones look alike. Each part counts with its length, so that "ab" + "c" is not "a" + "bc".
class Digest {
 public:
  Digest();
  Digest(Digest&&) noexcept;
  ~Digest();

  Digest& add(std::string_view bytes);
  Digest& add(const char* text) { return add(std::string_view(text)); }
  template <class T>
  requires std::is_arithmetic_v<T> || std::is_enum_v<T> Digest& add(T value) {
    return add(std::string_view(reinterpret_cast<const char*>(&value), sizeof value));
  }
  template <class T>
  Digest& add(const std::optional<T>& value) {
    add(value.has_value());
    return value ? add(*value) : *this;
  }
  /// All bytes of a file as they are, which may be many. Fault::unreadable as `read_file`; `name`
  /// is what errors call the file.
  Result<Nothing> add_file(const std::filesystem::path& path, const std::string& name);

  std::string hex() const;

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace rangecheck
