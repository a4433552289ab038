// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace rangecheck::intake {

/// RFC 4648, section 4, with padding and in one line.
std::string base64(std::string_view bytes);

/// Nothing for a text that base64() would not write: other characters, no padding, bits left over.
std::optional<std::string> from_base64(std::string_view text);

}  // namespace rangecheck::intake
