// SPDX-License-Identifier: MIT
// A landmark file as a parsed document, and where in it a reader is. Inside this room a reader that
// can't go on throws Refusal; read_landmarks catches it and hands out the Error in it.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "intake/spot.hpp"

namespace rangecheck::intake {

using Json = nlohmann::json;

/// The document in `text`. NaN and Infinity, which are not JSON but are written by some estimators,
/// become null. Depth and number of values are bounded. `first_line` is the number of the line on
/// which `text` starts. Throws Refusal.
Json parse_document(std::string_view text, const Spot& where, int first_line = 1);

/// Null, [] or {}: how the dialects say that nobody was found.
bool is_empty(const Json& value);

/// The value under `key` of an object; nullptr when there is none or `value` is no object.
const Json* member(const Json& value, std::string_view key);

/// The number, or nothing for null. Anything else is refused.
std::optional<double> number_or_null(const Json& value, const Spot& where);

/// "an array", "a text", …: what a value is, for messages.
std::string kind_of(const Json& value);

/// Order in which 9.json stands before 10.json, whatever zeros are in front.
bool natural_less(std::string_view a, std::string_view b);

/// Frame numbers for names in natural order: the last number in each name, its ending left out, if
/// these increase; else 0, 1, 2, …
std::vector<std::size_t> frame_numbers(const std::vector<std::string>& names);

}  // namespace rangecheck::intake
