// SPDX-License-Identifier: MIT
#include "base/publish.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <sys/statvfs.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <system_error>
#include <vector>

#include "base/descriptor.hpp"
#include "base/publish_parts.hpp"
#include "base/text.hpp"

namespace rangecheck {
namespace {

/// How the names of files begin that are not yet in their place, and what ends them, drawn by lot.
constexpr std::string_view unpublished = ".publish-", drawn = "XXXXXX";

Error io_error(std::string_view doing, const std::filesystem::path& path, int error_number) {
  return {Fault::io, std::string(doing) + ": " + words_of(error_number),
          Place{.file = printable(path.string()), .line = {}, .frame = {}, .key = {}},
          disk_remedy(error_number, path)};
}

/// Makes a rename or a new entry in `folder` survive a power cut.
int sync_folder(const std::filesystem::path& folder) {
  const Descriptor opened(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (!opened || ::fsync(opened.get()) != 0) return errno;
  return 0;
}

/// Gathers bytes for a descriptor. After the first fault nothing more is written.
class Buffered {
 public:
  explicit Buffered(int descriptor) : descriptor_(descriptor) {}
  void write(std::string_view bytes) {
    if (gathered_.size() + bytes.size() > enough) flush();
    if (bytes.size() > enough && failed_ == 0)
      failed_ = write_all(descriptor_, bytes);
    else
      gathered_ += bytes;
  }
  /// Makes all of it last; the first fault, or 0.
  int sync() {
    flush();
    if (failed_ == 0 && ::fsync(descriptor_) != 0) failed_ = errno;
    return failed_;
  }

 private:
  static constexpr std::size_t enough = std::size_t{1} << 16;
  void flush() {
    if (failed_ == 0) failed_ = write_all(descriptor_, gathered_);
    gathered_.clear();
  }
  int descriptor_;
  int failed_ = 0;
  std::string gathered_;
};

/// Renames `temporary` to `path` and makes that last.
Result<Nothing> put_in_place(const std::filesystem::path& temporary,
                             const std::filesystem::path& path) {
  if (::rename(temporary.c_str(), path.c_str()) != 0)
    return io_error("can't write the file", path, errno);
  const auto folder = path.parent_path();
  if (const int failed = sync_folder(folder.empty() ? "." : folder))
    return io_error("can't sync the folder", folder, failed);
  return Nothing{};
}

/// A folder that goes with everything in it.
struct Passing {
  std::filesystem::path folder;
  ~Passing() {
    std::error_code ignored;
    std::filesystem::remove_all(folder, ignored);
  }
};

/// The start of a name for `mkostemp` and `mkdtemp`: one of its own, not the target's with an
/// ending, since that one may already be as long as names get.
std::string temporary_in(const std::filesystem::path& folder) {
  return (folder / (std::string(unpublished) + std::string(drawn))).string();
}

/// Takes a file or folder for as long as the descriptor is open. Where the file system has no such
/// locks, nobody finds it free either.
bool take(const Descriptor& opened) {
  return opened && ::flock(opened.get(), LOCK_EX | LOCK_NB) == 0;
}

/// Whether `path` is of this user, and nobody's who is still writing it.
bool is_left(const std::filesystem::path& path) {
  const Descriptor opened(
      ::open(path.c_str(), O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC | O_NOCTTY));
  struct stat facts {};
  if (!take(opened) || ::fstat(opened.get(), &facts) != 0) return false;
  return facts.st_uid == ::geteuid() && (S_ISREG(facts.st_mode) || S_ISDIR(facts.st_mode));
}

}  // namespace

std::string disk_remedy(int error_number, const std::filesystem::path& path) {
  struct statvfs disk {};
  const auto folder = path.parent_path();
  if (::statvfs(folder.empty() ? "." : folder.c_str(), &disk) == 0 && disk.f_files > 0 &&
      disk.f_favail == 0)
    return "the disk can't hold more files, however small: remove some and run again";
  switch (error_number) {
    case ENOSPC:
    case EDQUOT:
      return "make room on the disk and run again";
    case EROFS:
      return "the disk can only be read: make it writable and run again";
    case EACCES:
    case EPERM:
      return "check who may write there";
    default:
      return "check the disk and run again";
  }
}

bool is_unpublished(const std::filesystem::path& path) {
  const std::string name = path.filename().string();
  return name.starts_with(unpublished) && name.size() == unpublished.size() + drawn.size();
}

void remove_leftovers(const std::filesystem::path& folder) {
  std::error_code failed;
  std::vector<std::filesystem::path> left;
  for (std::filesystem::directory_iterator each(folder, failed), end; !failed && each != end;
       each.increment(failed))
    if (is_unpublished(each->path()) && is_left(each->path())) left.push_back(each->path());
  for (const auto& path : left) {
    std::error_code ignored;
    std::filesystem::remove_all(path, ignored);
  }
}

Result<Nothing> make_private_folders(const std::filesystem::path& folder) {
  std::error_code ignored;
  if (folder.empty() || std::filesystem::is_directory(folder, ignored)) return Nothing{};
  const auto parent = folder.parent_path();
  if (parent != folder) {
    if (auto made = make_private_folders(parent); !made) return made;
  }
  // Another worker may have made it in between: that is as good.
  if (::mkdir(folder.c_str(), 0700) != 0) {
    const int why = errno;
    if (why != EEXIST || !std::filesystem::is_directory(folder, ignored))
      return io_error("can't make the folder", folder, why);
  }
  if (const int failed = sync_folder(parent.empty() ? "." : parent)) {
    return io_error("can't sync the folder", parent, failed);
  }
  return Nothing{};
}

Result<Nothing> publish(const std::filesystem::path& path, std::string_view content) {
  return publish_in_parts(path, [&](const Write& write) -> Result<Nothing> {
    write(content);
    return Nothing{};
  });
}

Result<Nothing> publish_in_parts(const std::filesystem::path& path,
                                 const std::function<Result<Nothing>(const Write&)>& make) {
  const auto folder = path.parent_path();
  if (auto made = make_private_folders(folder); !made) return made;
  std::string temporary = temporary_in(folder);
  Descriptor file(::mkostemp(temporary.data(), O_CLOEXEC));
  if (!file) return io_error("can't write the file", path, errno);
  const Descriptor held(::fcntl(file.get(), F_DUPFD_CLOEXEC, 0));  // until it is in its place
  take(held);
  Buffered buffered(file.get());
  auto published = make([&](std::string_view bytes) { buffered.write(bytes); });
  int failed = buffered.sync();
  if (::close(file.release()) != 0 && failed == 0) failed = errno;
  if (published)
    published = failed == 0 ? put_in_place(temporary, path)
                            : Result<Nothing>(io_error("can't write the file", path, failed));
  if (!published) ::unlink(temporary.c_str());
  return published;
}

Result<Nothing> publish_made(
    const std::filesystem::path& path,
    const std::function<Result<Nothing>(const std::filesystem::path&)>& make) {
  const auto folder = path.parent_path();
  if (auto made = make_private_folders(folder); !made) return made;
  std::string temporary = temporary_in(folder);
  if (::mkdtemp(temporary.data()) == nullptr) return io_error("can't write the file", path, errno);
  const Passing passing{temporary};
  const Descriptor held(::open(temporary.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  take(held);
  const auto whole = passing.folder / path.filename();
  if (auto made = make(whole); !made) return made;
  {
    const Descriptor file(::open(whole.c_str(), O_RDONLY | O_CLOEXEC));
    if (!file || ::fchmod(file.get(), 0600) != 0 || ::fsync(file.get()) != 0)
      return io_error("can't write the file", path, errno);
  }
  return put_in_place(whole, path);
}

}  // namespace rangecheck
