// SPDX-License-Identifier: MIT
#include "base/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <numeric>

namespace rangecheck {
namespace {

/// Levenshtein distance in bytes.
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 0; i < a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i + 1;
    for (std::size_t j = 0; j < b.size(); ++j) {
      const std::size_t replaced = diagonal + (a[i] == b[j] ? 0 : 1);
      diagonal = row[j + 1];
      row[j + 1] = std::min({replaced, row[j] + 1, diagonal + 1});
    }
  }
  return row.back();
}

constexpr bool is_space(char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; }

/// One code point and the bytes it took; a size of 0 says that the bytes are not UTF-8.
struct Decoded {
  std::uint32_t code = 0;
  std::size_t size = 0;
};

/// RFC 3629: no overlong forms, no surrogates, nothing above U+10FFFF.
Decoded decode(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned first = byte(0);
  if (first < 0x80) return {first, 1};
  const std::size_t size = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
  if (first < 0xC2 || first > 0xF4 || text.size() < size) return {};
  std::uint32_t code = first & (0xFFu >> (size + 1));
  for (std::size_t i = 1; i < size; ++i) {
    if ((byte(i) & 0xC0u) != 0x80u) return {};
    code = (code << 6) | (byte(i) & 0x3Fu);
  }
  constexpr std::uint32_t smallest[] = {0, 0, 0x80, 0x800, 0x10000};
  if (code < smallest[size] || code > 0x10FFFF || (code >= 0xD800 && code < 0xE000)) return {};
  return {code, size};
}

/// Code points that move the cursor, break the line or turn the reading direction, and those that
/// XML 1.0 has no room for (section 2.2).
bool deceives(std::uint32_t code) {
  return code < 0x20 || (code >= 0x7F && code < 0xA0) || code == 0x061C || code == 0x200E ||
         code == 0x200F || (code >= 0x2028 && code <= 0x202E) ||
         (code >= 0x2066 && code <= 0x2069) || code == 0xFEFF || code == 0xFFFE || code == 0xFFFF;
}

}  // namespace

std::string nearest(std::string_view word, std::span<const std::string_view> candidates) {
  // A long word is near nothing, and the distance takes time with its length.
  constexpr std::size_t longest_word = 100;
  if (word.empty() || word.size() > longest_word) return "";
  std::string best;
  std::size_t best_distance = word.size() / 2 + 1;
  for (const auto candidate : candidates) {
    const std::size_t apart =
        std::max(word.size(), candidate.size()) - std::min(word.size(), candidate.size());
    if (apart >= best_distance) continue;  // each missing letter is an edit
    const std::size_t distance = edit_distance(word, candidate);
    if (distance >= best_distance) continue;
    best_distance = distance;
    best = candidate;
  }
  return best;
}

std::string_view trim(std::string_view text) {
  while (!text.empty() && is_space(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_space(text.back())) text.remove_suffix(1);
  return text;
}

std::vector<std::string_view> split(std::string_view text, char separator) {
  std::vector<std::string_view> parts;
  while (true) {
    const auto end = text.find(separator);
    parts.push_back(text.substr(0, end));
    if (end == std::string_view::npos) return parts;
    text.remove_prefix(end + 1);
  }
}

std::string lower(std::string_view ascii) {
  std::string out(ascii);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

std::string kebab(std::string_view words) {
  std::string out;
  for (const char c : lower(trim(words))) {
    const bool gap = is_space(c) || c == '_' || c == '-';
    if (!gap) out += c;
    if (gap && !out.empty() && out.back() != '-') out += '-';
  }
  if (!out.empty() && out.back() == '-') out.pop_back();
  return out;
}

std::optional<double> parse_number(std::string_view text) {
  text = trim(text);
  if (text.starts_with('+') && !text.starts_with("+-")) text.remove_prefix(1);
  double value = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (fault != std::errc() || end != text.data() + text.size()) return std::nullopt;
  if (!std::isfinite(value)) return std::nullopt;
  return value;
}

std::string printable(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const Decoded found = decode(text);
    const std::size_t size = std::max<std::size_t>(found.size, 1);
    if (found.size != 0 && !deceives(found.code)) {
      out += text.substr(0, size);
    } else if (text.front() == '\n') {
      out += "\\n";
    } else if (text.front() == '\t') {
      out += "\\t";
    } else {
      for (const char c : text.substr(0, size)) {
        out += fmt::format("\\x{:02x}", static_cast<unsigned char>(c));
      }
    }
    text.remove_prefix(size);
  }
  return out;
}

std::string shortened(std::string_view text) {
  constexpr std::size_t longest = 80;
  if (text.size() <= longest) return printable(text);
  // Cut between code points, never inside one.
  std::size_t end = longest;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0u) == 0x80u) --end;
  return printable(text.substr(0, end)) + "…";
}

std::string quoted(std::string_view text) { return '"' + shortened(text) + '"'; }

}  // namespace rangecheck
