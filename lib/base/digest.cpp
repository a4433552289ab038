// SPDX-License-Identifier: MIT
#include "base/digest.hpp"

#include "base/read_file.hpp"

#define XXH_INLINE_ALL  // as part of this file: nothing to link
#include <fmt/format.h>
#include <xxhash.h>

#include <cstdint>

namespace rangecheck {

struct Digest::State {
  XXH3_state_t xxh3;
};

Digest::Digest() : state_(std::make_unique<State>()) { XXH3_128bits_reset(&state_->xxh3); }
Digest::Digest(Digest&&) noexcept = default;
Digest::~Digest() = default;

Digest& Digest::add(std::string_view bytes) {
  const std::uint64_t size = bytes.size();
  XXH3_128bits_update(&state_->xxh3, &size, sizeof size);
  XXH3_128bits_update(&state_->xxh3, bytes.data(), bytes.size());
  return *this;
}

Result<Nothing> Digest::add_file(const std::filesystem::path& path, const std::string& name) {
  std::uint64_t size = 0;
  const auto read = read_in_pieces(path, name, [&](std::string_view piece) {
    XXH3_128bits_update(&state_->xxh3, piece.data(), piece.size());
    size += piece.size();
    return true;
  });
  if (read) XXH3_128bits_update(&state_->xxh3, &size, sizeof size);
  return read;
}

std::string Digest::hex() const {
  const XXH128_hash_t hash = XXH3_128bits_digest(&state_->xxh3);
  return fmt::format("{:016x}{:016x}", hash.high64, hash.low64);
}

}  // namespace rangecheck
