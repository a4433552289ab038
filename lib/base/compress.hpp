// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace rangecheck {

/// The bytes in less room, with a checksum (RFC 1950), behind how many there were. At most 4 GiB.
std::string compressed(std::string_view bytes);

/// What was compressed; nothing where the bytes are damaged, or claim to be more than `largest`.
std::optional<std::string> decompressed(std::string_view bytes, std::size_t largest);

}  // namespace rangecheck
