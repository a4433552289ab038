// SPDX-License-Identifier: MIT
#include "base/digest.hpp"

#define XXH_INLINE_ALL  // as part of this file: nothing to link
#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>
#include <xxhash.h>

#include <cerrno>
#include <system_error>
#include <vector>

namespace rangecheck {
namespace {

Error unreadable(const std::string& name, const std::string& why) {
  return {Fault::unreadable,
          why,
          {.file = name, .line = {}, .frame = {}, .key = {}},
          "check who may read it"};
}

}  // namespace

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
  // Non-blocking, because opening a pipe that someone left in the inbox would wait for ever.
  const int file = ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK);
  if (file < 0) return unreadable(name, "can't be read: " + std::generic_category().message(errno));
  struct stat facts {};
  std::vector<char> piece(std::size_t{1} << 18);
  std::uint64_t size = 0;
  ssize_t got = ::fstat(file, &facts) == 0 && S_ISREG(facts.st_mode) ? 1 : -1;
  while (got > 0) {
    got = ::read(file, piece.data(), piece.size());
    if (got <= 0) break;
    XXH3_128bits_update(&state_->xxh3, piece.data(), static_cast<std::size_t>(got));
    size += static_cast<std::uint64_t>(got);
  }
  ::close(file);
  if (got < 0) return unreadable(name, "can't be read");
  XXH3_128bits_update(&state_->xxh3, &size, sizeof size);
  return Nothing{};
}

std::string Digest::hex() const {
  const XXH128_hash_t hash = XXH3_128bits_digest(&state_->xxh3);
  return fmt::format("{:016x}{:016x}", hash.high64, hash.low64);
}

}  // namespace rangecheck
