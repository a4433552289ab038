// SPDX-License-Identifier: MIT
#include "base/compress.hpp"

#include <zlib.h>

#include <cstdint>
#include <cstring>

namespace rangecheck {

std::string compressed(std::string_view bytes) {
  uLongf size = compressBound(bytes.size());
  const auto whole = static_cast<std::uint32_t>(bytes.size());
  std::string out(sizeof whole + size, '\0');
  std::memcpy(out.data(), &whole, sizeof whole);
  compress2(reinterpret_cast<Bytef*>(out.data() + sizeof whole), &size,
            reinterpret_cast<const Bytef*>(bytes.data()), bytes.size(), Z_BEST_SPEED);
  out.resize(sizeof whole + size);
  return out;
}

std::optional<std::string> decompressed(std::string_view bytes, std::size_t largest) {
  std::uint32_t whole = 0;
  if (bytes.size() < sizeof whole) return std::nullopt;
  std::memcpy(&whole, bytes.data(), sizeof whole);
  bytes.remove_prefix(sizeof whole);
  if (whole > largest) return std::nullopt;
  std::string out(whole, '\0');
  uLongf size = whole;
  const int code = uncompress(reinterpret_cast<Bytef*>(out.data()), &size,
                              reinterpret_cast<const Bytef*>(bytes.data()), bytes.size());
  if (code != Z_OK || size != whole) return std::nullopt;
  return out;
}

}  // namespace rangecheck
