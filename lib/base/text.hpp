// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace rangecheck {

/// The candidate with the smallest edit distance to `word`, or "" when none is near (more than
/// half of the word would change). For "did you mean".
std::string nearest(std::string_view word, std::span<const std::string_view> candidates);

std::string_view trim(std::string_view text);
std::vector<std::string_view> split(std::string_view text, char separator);
std::string lower(std::string_view ascii);

/// A name in the kebab-case of ids and keys: "Lead Knee_flexion" → "lead-knee-flexion".
std::string kebab(std::string_view words);

/// `text` with control characters, line breaks and broken UTF-8 made visible, for messages and
/// logs.
std::string printable(std::string_view text);

/// `text` made printable and, beyond 80 bytes, shortened: what people's files name has no bounds,
/// messages do.
std::string shortened(std::string_view text);

/// `text` made printable, shortened and put in quotation marks: how messages cite the user's words.
std::string quoted(std::string_view text);

/// A finite decimal number and nothing else, whatever the locale.
std::optional<double> parse_number(std::string_view text);

}  // namespace rangecheck
