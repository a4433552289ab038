// SPDX-License-Identifier: MIT
#include <algorithm>

#include "base/text.hpp"
#include "intake/submission.hpp"

namespace rangecheck::intake {
namespace {

constexpr bool is_letter_or_digit(char c) {
  // Bytes of other scripts; that they are whole characters is checked apart.
  const bool beyond_ascii = static_cast<unsigned char>(c) >= 0x80;
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || beyond_ascii;
}

// What people and browsers put into names, "film (2)" above all.
constexpr std::string_view punctuation = " ._-()+,&'";

constexpr bool is_allowed(char c) {
  return is_letter_or_digit(c) || punctuation.find(c) != std::string_view::npos;
}

}  // namespace

std::optional<std::string> why_unsafe(std::string_view name) {
  constexpr std::size_t longest = 100;
  if (name.empty()) return "is empty";
  if (name.size() > longest) return "is longer than 100 bytes";
  if (printable(name) != name || !std::all_of(name.begin(), name.end(), is_allowed)) {
    return "may have only letters, digits, spaces and . _ - ( ) + , & '";
  }
  if (!is_letter_or_digit(name.front())) return "has to start with a letter or a digit";
  if (name.back() == ' ' || name.back() == '.') return "may not end with a space or a dot";
  return std::nullopt;
}

}  // namespace rangecheck::intake
