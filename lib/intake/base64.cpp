// SPDX-License-Identifier: MIT
#include "intake/base64.hpp"

#include <algorithm>
#include <array>
#include <cstdint>

namespace rangecheck::intake {
namespace {

constexpr std::string_view digits =
    "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
constexpr std::uint8_t no_digit = 64;

constexpr std::array<std::uint8_t, 256> values = [] {
  std::array<std::uint8_t, 256> out{};
  out.fill(no_digit);
  for (std::size_t i = 0; i < digits.size(); ++i)
    out[static_cast<unsigned char>(digits[i])] = static_cast<std::uint8_t>(i);
  return out;
}();

}  // namespace

std::string base64(std::string_view bytes) {
  std::string text;
  text.reserve((bytes.size() + 2) / 3 * 4);
  for (; !bytes.empty(); bytes.remove_prefix(std::min<std::size_t>(3, bytes.size()))) {
    const std::size_t count = std::min<std::size_t>(3, bytes.size());
    std::uint32_t three = 0;
    for (std::size_t i = 0; i < 3; ++i)
      three = three << 8 | (i < count ? static_cast<unsigned char>(bytes[i]) : 0U);
    for (std::size_t i = 0; i < 4; ++i)
      text += i <= count ? digits[three >> (18 - 6 * i) & 63] : '=';
  }
  return text;
}

std::optional<std::string> from_base64(std::string_view text) {
  if (text.size() % 4 != 0) return std::nullopt;
  const std::size_t padding = text.ends_with("==") ? 2 : text.ends_with('=') ? 1 : 0;
  text.remove_suffix(padding);
  std::string bytes;
  bytes.reserve(text.size() / 4 * 3 + 2);
  std::uint32_t held = 0;
  int bits = 0;
  for (const char c : text) {
    const std::uint8_t value = values[static_cast<unsigned char>(c)];
    if (value == no_digit) return std::nullopt;
    held = held << 6 | value;
    bits += 6;
    if (bits < 8) continue;
    bits -= 8;
    bytes += static_cast<char>(held >> bits & 255);
    held &= (1U << bits) - 1;
  }
  if (held != 0) return std::nullopt;
  return bytes;
}

}  // namespace rangecheck::intake
