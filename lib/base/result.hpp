// SPDX-License-Identifier: MIT
#pragma once

#include <cassert>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>

namespace rangecheck {

/// Where in the user's files something is. Empty parts are unknown. `file` is relative to what the
/// user named, never an absolute path of this machine.
struct Place {
  std::string file;
  std::optional<int> line;           ///< 1-based
  std::optional<std::size_t> frame;  ///< 0-based index into the film
  std::string key;                   ///< YAML path or JSON pointer
};

/// What kind of fault, for exit codes and machine-readable errors.
enum class Fault {
  unreadable,    ///< not there, not readable, truncated, not the format it should be
  not_a_film,    ///< well-formed, but no landmarks we know how to read
  bad_value,     ///< a key or value that can't be
  bad_profile,   ///< profile, roster or rule table is wrong
  disagreement,  ///< the evidence contradicts itself: wrong view, two people, impossible stature
  io             ///< disk, permissions, lock
};

/// A fault as documents call it, for good: "not-a-film".
std::string_view name_of(Fault fault);
/// Nothing for a name that is none.
std::optional<Fault> find_fault(std::string_view name);

/// An error as a value: what is wrong, where, and what to do about it.
struct Error {
  Fault fault = Fault::unreadable;
  std::string what;
  Place where;
  std::string remedy;
};

/// "file:line: frame 3: key: what (remedy)", leaving out the parts that are unknown.
std::string to_string(const Error& error);

/// What a function that only may fail gives when it did not.
struct Nothing {};

/// A value or the reason why there is none.
template <class T, class Why = Error>
class [[nodiscard]] Result {
 public:
  Result(T value)
      : content_(std::in_place_index<0>, std::move(value)) {}  // NOLINT: implicit by design
  Result(Why why)
      : content_(std::in_place_index<1>, std::move(why)) {}  // NOLINT: implicit by design
  explicit operator bool() const { return content_.index() == 0; }
  T& operator*() & { return *std::get_if<0>(&content_); }
  const T& operator*() const& { return *std::get_if<0>(&content_); }
  T&& operator*() && { return std::move(*std::get_if<0>(&content_)); }
  T* operator->() { return std::get_if<0>(&content_); }
  const T* operator->() const { return std::get_if<0>(&content_); }
  const Why& error() const { return *std::get_if<1>(&content_); }
  Why& error() { return *std::get_if<1>(&content_); }

 private:
  std::variant<T, Why> content_;
};

}  // namespace rangecheck
