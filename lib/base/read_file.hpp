// SPDX-License-Identifier: MIT
// Files of strangers as bytes: never more than was asked for, and no pipe or device.
#pragma once

#include <cstddef>
#include <filesystem>
#include <functional>
#include <string>
#include <string_view>

#include "base/result.hpp"

namespace rangecheck {

/// Strings that come from plain files have so much room behind what is in them, so that a parser
/// which reads in wide words need not copy them.
inline constexpr std::size_t room_behind = 64;

/// The whole of a file, gunzipped when it starts with the gzip magic. At most `limit` bytes come
/// out; more is an error, which also stops compression bombs. `name` is what errors call the file.
Result<std::string> read_file(const std::filesystem::path& path, const std::string& name,
                              std::size_t limit = std::size_t{256} << 20);

/// What read_file makes of a file that holds these bytes.
Result<std::string> unpacked(std::string bytes, const std::string& name, std::size_t limit);

/// Hands over the bytes of a file as they are, compressed or not, piece by piece, until `take` says
/// that it has enough (false). Fault::unreadable as read_file.
Result<Nothing> read_in_pieces(const std::filesystem::path& path, const std::string& name,
                               const std::function<bool(std::string_view)>& take);

/// The bytes of a file as they are, compressed or not; all else as read_file.
Result<std::string> read_bytes(const std::filesystem::path& path, const std::string& name,
                               std::size_t limit);

}  // namespace rangecheck
