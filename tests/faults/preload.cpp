// SPDX-License-Identifier: MIT
// For tests: loaded before a program's own libraries (LD_PRELOAD), it counts the calls by which the
// program changes what is under one folder, and does harm at one of them. Set in the environment:
//   FAULTS_UNDER   the folder, absolute and without links
//   FAULTS_LOG     file that gets a line for each such call: its kind, a tab and the path
//   FAULTS_AT      number of the call, from 1
//   FAULTS_DO      what happens there:
//                  kill-before, kill-after: SIGKILL before the call or after it
//                  kill-half: SIGKILL after half of the bytes of a write, else as kill-before
//                  fail: the call fails with FAULTS_ERRNO, once
//                  fail-from: this one and all after it do
//                  full: as on a full disk, a write takes half of its bytes, and whatever needs
//                  room fails with FAULTS_ERRNO from then on
//                  wait: until there is a file FAULTS_GO
// Calls by which libc calls itself can't be seen: so mkostemp, fwrite and the like are counted
// under their own names.
#include <dlfcn.h>
#include <fcntl.h>
#include <signal.h>
#include <sys/stat.h>
#include <sys/uio.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <cstdarg>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <string>

namespace {

enum class Deed { nothing, kill_before, kill_after, kill_half, fail, fail_from, full, wait };

std::string setting(const char* name) {
  const char* value = std::getenv(name);
  return value ? value : "";
}

Deed deed_named(const std::string& word) {
  if (word == "kill-before") return Deed::kill_before;
  if (word == "kill-after") return Deed::kill_after;
  if (word == "kill-half") return Deed::kill_half;
  if (word == "fail") return Deed::fail;
  if (word == "fail-from") return Deed::fail_from;
  if (word == "full") return Deed::full;
  if (word == "wait") return Deed::wait;
  return Deed::nothing;
}

struct Settings {
  std::string under = setting("FAULTS_UNDER"), log = setting("FAULTS_LOG"),
              go = setting("FAULTS_GO");
  long at = std::atol(setting("FAULTS_AT").c_str());
  Deed deed = deed_named(setting("FAULTS_DO"));
  int error = std::atoi(setting("FAULTS_ERRNO").c_str());
};

const Settings& settings() {
  static const Settings* all = new Settings;  // for calls after the end of main
  return *all;
}

/// The function of this name that the program would call without this library.
template <class Function>
Function* real(Function*, const char* name) {
  return reinterpret_cast<Function*>(::dlsym(RTLD_NEXT, name));
}
#define REAL(name) real(static_cast<decltype(&::name)>(nullptr), #name)

bool is_under(const std::string& path) {
  const std::string& folder = settings().under;
  return !folder.empty() && path.compare(0, folder.size(), folder) == 0 &&
         (path.size() == folder.size() || path[folder.size()] == '/');
}

std::string path_of(int descriptor) {
  char path[4096];
  const std::string link = "/proc/self/fd/" + std::to_string(descriptor);
  const ssize_t size = ::readlink(link.c_str(), path, sizeof path);
  return size < 0 ? "" : std::string(path, static_cast<std::size_t>(size));
}

std::string path_in(int folder, const char* path) {
  if (path[0] == '/' || folder == AT_FDCWD) return path;
  return path_of(folder) + "/" + path;
}

[[noreturn]] void die() {
  ::kill(::getpid(), SIGKILL);
  while (true) ::pause();
}

void log(const char* kind, const std::string& path) {
  static const auto open = REAL(open);
  static const auto write = REAL(write);
  static const int file =
      open(settings().log.c_str(), O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0600);
  const std::string line = std::string(kind) + "\t" + path + "\n";
  if (file < 0 || write(file, line.data(), line.size()) < 0) std::abort();
}

void wait_for_go() {
  while (::access(settings().go.c_str(), F_OK) != 0) ::usleep(2000);
}

/// What is to become of one call.
struct Fate {
  bool dies_after = false, fails = false, is_half = false, dies_half = false;
};

/// `needs_room`: a full disk is in its way. May not come back.
Fate fate_of(const char* kind, const std::string& path, bool needs_room = false) {
  static std::atomic<long> count = 0;
  if (!is_under(path)) return {};
  const Settings& all = settings();
  if (!all.log.empty()) log(kind, path);
  const long number = ++count;
  const bool here = number == all.at, from_here = all.at > 0 && number >= all.at;
  switch (all.deed) {
    case Deed::nothing:
      return {};
    case Deed::kill_before:
      if (here) die();
      return {};
    case Deed::kill_after:
      return {.dies_after = here};
    case Deed::kill_half:
      return {.is_half = here, .dies_half = here};
    case Deed::fail:
      return {.fails = here};
    case Deed::fail_from:
      return {.fails = from_here};
    case Deed::full:
      return {.fails = from_here && needs_room && !here, .is_half = here};
    case Deed::wait:
      if (here) wait_for_go();
      return {};
  }
  return {};
}

/// Makes a call that has no half.
template <class Value, class Call>
Value whole(const Fate& fate, Value failed, const Call& call) {
  if (fate.dies_half) die();
  if (fate.fails || fate.is_half) {
    errno = settings().error;
    return failed;
  }
  const Value value = call();
  if (fate.dies_after) die();
  return value;
}

/// Makes a write of `count` bytes; `call` is given how many.
template <class Count, class Call>
Count some(const Fate& fate, std::size_t count, Count failed, const Call& call) {
  if (!fate.is_half) return whole(fate, failed, [&] { return call(count); });
  const Count value = call(count / 2);
  if (fate.dies_half) die();
  if (count > 1) return value;
  errno = settings().error;
  return failed;
}

/// Only what makes or empties a file changes anything.
bool changes(int flags) { return (flags & (O_CREAT | O_TRUNC)) != 0; }
bool is_there(const std::string& path) { return ::access(path.c_str(), F_OK) == 0; }

mode_t mode_in(int flags, va_list arguments) {
  return (flags & (O_CREAT | O_TMPFILE)) != 0 ? va_arg(arguments, mode_t) : 0;
}

template <class Open>
int open_by(const char* kind, const Open& open, int folder, const char* path, int flags) {
  if (!changes(flags)) return open();
  const std::string where = path_in(folder, path);
  return whole(fate_of(kind, where, !is_there(where)), -1, open);
}

template <class Open>
FILE* fopen_by(const Open& open, const char* path, const char* mode) {
  if (std::strpbrk(mode, "wa+") == nullptr) return open(path, mode);
  return whole(fate_of("fopen", path, !is_there(path)), static_cast<FILE*>(nullptr),
               [&] { return open(path, mode); });
}

}  // namespace

extern "C" {

#define OPEN(name)                                                               \
  int name(const char* path, int flags, ...) {                                   \
    va_list arguments;                                                           \
    va_start(arguments, flags);                                                  \
    const mode_t mode = mode_in(flags, arguments);                               \
    va_end(arguments);                                                           \
    static const auto next = REAL(name);                                         \
    return open_by(                                                              \
        "open", [&] { return next(path, flags, mode); }, AT_FDCWD, path, flags); \
  }
OPEN(open)
OPEN(open64)

#define OPENAT(name)                                                                   \
  int name(int folder, const char* path, int flags, ...) {                             \
    va_list arguments;                                                                 \
    va_start(arguments, flags);                                                        \
    const mode_t mode = mode_in(flags, arguments);                                     \
    va_end(arguments);                                                                 \
    static const auto next = REAL(name);                                               \
    return open_by(                                                                    \
        "open", [&] { return next(folder, path, flags, mode); }, folder, path, flags); \
  }
OPENAT(openat)
OPENAT(openat64)

int mkostemp(char* name, int flags) {
  static const auto next = REAL(mkostemp);
  return whole(fate_of("open", name, true), -1, [&] { return next(name, flags); });
}

char* mkdtemp(char* name) noexcept {
  static const auto next = REAL(mkdtemp);
  return whole(fate_of("mkdir", name, true), static_cast<char*>(nullptr),
               [&] { return next(name); });
}

int mkdir(const char* path, mode_t mode) noexcept {
  static const auto next = REAL(mkdir);
  return whole(fate_of("mkdir", path, true), -1, [&] { return next(path, mode); });
}

ssize_t write(int file, const void* bytes, size_t count) {
  static const auto next = REAL(write);
  return some(fate_of("write", path_of(file), true), count, ssize_t{-1},
              [&](size_t some_of_it) { return next(file, bytes, some_of_it); });
}

#define PWRITE(name)                                                                   \
  ssize_t name(int file, const void* bytes, size_t count, off_t at) {                  \
    static const auto next = REAL(name);                                               \
    return some(fate_of("pwrite", path_of(file), true), count, ssize_t{-1},            \
                [&](size_t some_of_it) { return next(file, bytes, some_of_it, at); }); \
  }
PWRITE(pwrite)
PWRITE(pwrite64)

ssize_t writev(int file, const iovec* parts, int count) {
  static const auto next = REAL(writev);
  return whole(fate_of("writev", path_of(file), true), ssize_t{-1},
               [&] { return next(file, parts, count); });
}

#define FTRUNCATE(name)                                                                      \
  int name(int file, off_t size) noexcept {                                                  \
    static const auto next = REAL(name);                                                     \
    return whole(fate_of("ftruncate", path_of(file)), -1, [&] { return next(file, size); }); \
  }
FTRUNCATE(ftruncate)
FTRUNCATE(ftruncate64)

#define ALLOCATE(name)                                                       \
  int name(int file, off_t at, off_t size) {                                 \
    static const auto next = REAL(name);                                     \
    return whole(fate_of("allocate", path_of(file), true), settings().error, \
                 [&] { return next(file, at, size); });                      \
  }
ALLOCATE(posix_fallocate)
ALLOCATE(posix_fallocate64)

#define ON_FILE(name)                                                            \
  int name(int file) {                                                           \
    static const auto next = REAL(name);                                         \
    return whole(fate_of(#name, path_of(file)), -1, [&] { return next(file); }); \
  }
ON_FILE(fsync)
ON_FILE(fdatasync)

int fchmod(int file, mode_t mode) noexcept {
  static const auto next = REAL(fchmod);
  return whole(fate_of("fchmod", path_of(file)), -1, [&] { return next(file, mode); });
}

int fchown(int file, uid_t owner, gid_t group) noexcept {
  static const auto next = REAL(fchown);
  return whole(fate_of("fchown", path_of(file)), -1, [&] { return next(file, owner, group); });
}

#define ON_PATH(name)                                                   \
  int name(const char* path) noexcept {                                 \
    static const auto next = REAL(name);                                \
    return whole(fate_of(#name, path), -1, [&] { return next(path); }); \
  }
ON_PATH(unlink)
ON_PATH(rmdir)
ON_PATH(remove)

int unlinkat(int folder, const char* path, int flags) noexcept {
  static const auto next = REAL(unlinkat);
  return whole(fate_of("unlinkat", path_in(folder, path)), -1,
               [&] { return next(folder, path, flags); });
}

int rename(const char* from, const char* to) noexcept {
  static const auto next = REAL(rename);
  return whole(fate_of("rename", to), -1, [&] { return next(from, to); });
}

int link(const char* from, const char* to) noexcept {
  static const auto next = REAL(link);
  return whole(fate_of("link", to, true), -1, [&] { return next(from, to); });
}

FILE* fopen(const char* path, const char* mode) {
  static const auto next = REAL(fopen);
  return fopen_by(next, path, mode);
}

FILE* fopen64(const char* path, const char* mode) {
  static const auto next = REAL(fopen64);
  return fopen_by(next, path, mode);
}

size_t fwrite(const void* bytes, size_t size, size_t count, FILE* file) {
  static const auto next = REAL(fwrite);
  static const auto flush = REAL(fflush);
  const Fate fate = fate_of("fwrite", path_of(::fileno(file)), true);
  const size_t written = some(fate, size * count, size_t{0}, [&](size_t some_of_it) {
    const size_t done = next(bytes, 1, some_of_it, file);
    if (fate.dies_half) flush(file);
    return done;
  });
  if (written == size * count) return count;
  file->_flags |= 0x20;  // _IO_ERR_SEEN, which ferror() looks for
  return size == 0 ? 0 : written / size;
}

int fclose(FILE* file) {
  static const auto next = REAL(fclose);
  const Fate fate = fate_of("fclose", path_of(::fileno(file)), true);
  if (fate.dies_half) die();
  const int closed = next(file);  // whatever is to become of it: who calls can't close it again
  if (fate.dies_after) die();
  if (!fate.fails && !fate.is_half) return closed;
  errno = settings().error;
  return EOF;
}

}  // extern "C"
