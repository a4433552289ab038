// SPDX-License-Identifier: MIT
// What a text is before it is parsed, and what is wrong with one that can't be.
#pragma once

#include <string>
#include <string_view>

#include "intake/spot.hpp"

namespace rangecheck::intake {

/// Deepest dialect: nine. Bounds recursion in whoever walks a document.
inline constexpr int deepest = 64;

/// True for one whole value on the first line that isn't blank and more on those after it.
bool is_json_lines(std::string_view text);

/// The lines as one list, every value still on its own line.
std::string list_of_lines(std::string_view text);

/// The text with null for NaN, Infinity and -Infinity outside strings; the same text when there are
/// none.
std::string with_nulls(std::string_view text);

/// Throws Refusal for a text (JSON Lines with `lines`) that a parser has refused, with the line of
/// the fault.
[[noreturn]] void refuse_json(std::string_view text, bool lines, const Spot& where);

}  // namespace rangecheck::intake
