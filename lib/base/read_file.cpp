// SPDX-License-Identifier: MIT
#include "base/read_file.hpp"

#include <fcntl.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <zlib.h>

#include <array>
#include <vector>

#include "base/descriptor.hpp"

namespace rangecheck {
namespace {

Error unreadable(const std::string& name, std::string what, std::string remedy = "") {
  return {Fault::unreadable, std::move(what),
          Place{.file = name, .line = {}, .frame = {}, .key = {}}, std::move(remedy)};
}

/// RFC 1952, 2.3.1: with these bytes a gzip file begins, and no text does.
constexpr std::string_view gzip_magic = "\x1f\x8b";

Error too_big(const std::string& name, std::size_t limit) {
  return unreadable(name, "is larger than " + std::to_string(limit >> 20) + " MiB",
                    "check that it is the right file");
}

constexpr std::size_t chunk_size = std::size_t{1} << 17;

Result<Descriptor> open_to_read(const std::filesystem::path& path, const std::string& name) {
  // Non-blocking, because opening a pipe that someone left in the inbox would wait for ever.
  Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
  if (!file) return unreadable(name, "can't be read: " + words_of(errno));
  struct stat facts {};
  if (::fstat(file.get(), &facts) != 0) return unreadable(name, words_of(errno));
  if (!S_ISREG(facts.st_mode)) return unreadable(name, "isn't a file");
  return file;
}

Result<std::string> gunzipped(Descriptor file, const std::string& name, std::size_t limit) {
  const gzFile stream = ::gzdopen(file.get(), "rb");
  if (stream == nullptr) return unreadable(name, "can't be read: out of memory");
  file.release();
  std::string content;
  std::vector<char> chunk(chunk_size);
  int got = 0;
  while ((got = ::gzread(stream, chunk.data(), static_cast<unsigned>(chunk.size()))) > 0) {
    if (content.size() + static_cast<std::size_t>(got) > limit) {
      ::gzclose_r(stream);
      return too_big(name, limit);
    }
    content.append(chunk.data(), static_cast<std::size_t>(got));
  }
  if (::gzclose_r(stream) != Z_OK || got < 0) {
    return unreadable(name, "is cut short or damaged (gzip)", "send the file again");
  }
  if (content.starts_with(gzip_magic)) {
    return unreadable(name, "is compressed twice", "compress it once, or not at all");
  }
  return content;
}

bool is_gzip(const Descriptor& file) {
  std::array<char, gzip_magic.size()> first{};
  return ::pread(file.get(), first.data(), first.size(), 0) == static_cast<ssize_t>(first.size()) &&
         std::string_view(first.data(), first.size()) == gzip_magic;
}

/// Hands over the file piece by piece until `take` has enough.
Result<Nothing> read_pieces(const Descriptor& file, const std::string& name,
                            const std::function<bool(std::string_view)>& take) {
  std::vector<char> piece(chunk_size);
  while (true) {
    const ssize_t got = ::read(file.get(), piece.data(), piece.size());
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return unreadable(name, "can't be read: " + words_of(errno));
    if (got == 0 || !take({piece.data(), static_cast<std::size_t>(got)})) return Nothing{};
  }
}

/// The bytes of the file as they are.
Result<std::string> read_plain(const Descriptor& file, const std::string& name, std::size_t limit) {
  struct stat facts {};
  if (::fstat(file.get(), &facts) != 0) return unreadable(name, words_of(errno));
  const auto size = static_cast<std::size_t>(facts.st_size);
  if (size > limit) return too_big(name, limit);
  std::string content;
  content.reserve(size + room_behind);
  bool fits = true;
  const auto read = read_pieces(file, name, [&](std::string_view piece) {
    fits = piece.size() <= limit - content.size();  // it may still grow
    if (fits) content += piece;
    return fits;
  });
  if (!read) return read.error();
  if (!fits) return too_big(name, limit);
  return content;
}

}  // namespace

Result<std::string> read_file(const std::filesystem::path& path, const std::string& name,
                              std::size_t limit) {
  auto file = open_to_read(path, name);
  if (!file) return file.error();
  if (is_gzip(*file)) return gunzipped(*std::move(file), name, limit);
  return read_plain(*file, name, limit);
}

Result<std::string> unpacked(std::string bytes, const std::string& name, std::size_t limit) {
  if (!bytes.starts_with(gzip_magic)) {
    if (bytes.size() > limit) return too_big(name, limit);
    return bytes;
  }
  // A file in memory, so that one reader knows what a damaged one is.
  Descriptor file(::memfd_create("rangecheck", MFD_CLOEXEC));
  if (!file || write_all(file.get(), bytes) != 0 || ::lseek(file.get(), 0, SEEK_SET) != 0)
    return unreadable(name, "can't be read: " + words_of(errno));
  return gunzipped(std::move(file), name, limit);
}

Result<Nothing> read_in_pieces(const std::filesystem::path& path, const std::string& name,
                               const std::function<bool(std::string_view)>& take) {
  const auto file = open_to_read(path, name);
  if (!file) return file.error();
  return read_pieces(*file, name, take);
}

Result<std::string> read_bytes(const std::filesystem::path& path, const std::string& name,
                               std::size_t limit) {
  const auto file = open_to_read(path, name);
  if (!file) return file.error();
  return read_plain(*file, name, limit);
}

}  // namespace rangecheck
