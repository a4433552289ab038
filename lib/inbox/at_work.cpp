// SPDX-License-Identifier: MIT
#include "inbox/at_work.hpp"

#include <fmt/chrono.h>
#include <fmt/format.h>
#include <signal.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <chrono>
#include <cstdio>
#include <system_error>
#include <thread>
#include <utility>

#include "base/read_file.hpp"
#include "base/text.hpp"
#include "inbox/folders.hpp"

namespace rangecheck::inbox {
namespace {

namespace fs = std::filesystem;

constexpr auto note_name = ".at-work";

std::string this_machine() {
  std::array<char, 256> host{};
  if (::gethostname(host.data(), host.size() - 1) != 0) host[0] = '?';
  return host.data();
}

/// "process 4711 on host, since 2026-03-14T02:00:00Z"
std::string myself() {
  const auto now = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
  return fmt::format("process {} on {}, since {:%Y-%m-%dT%H:%M:%SZ}", ::getpid(), this_machine(),
                     fmt::gmtime(std::chrono::system_clock::to_time_t(now)));
}

/// Whether a note is of a program of this machine that is no more: of one that was killed.
bool is_dead(const std::string& note) {
  pid_t process = 0;
  std::array<char, 256> host{};
  return std::sscanf(note.c_str(), "process %d on %255[^,]", &process, host.data()) == 2 &&
         host.data() == this_machine() && ::kill(process, 0) != 0 && errno == ESRCH;
}

/// What the one who has the folder says of itself. It says so right after it got the folder, so one
/// that says nothing yet is given a moment; what a dead one said is not its word.
std::string whoever(const fs::path& note) {
  for (int tries = 0; tries < 200; ++tries) {
    const auto text = read_file(note, note_name, 1024);
    if (text && !text->empty() && !is_dead(*text)) return ": " + printable(*text);
    std::this_thread::sleep_for(std::chrono::milliseconds(5));
  }
  return "";
}

}  // namespace

Result<AtWork> AtWork::in(const fs::path& out) {
  auto lock = FolderLock::now(out);
  if (!lock) return lock.error();
  const fs::path note = out / note_name;
  if (!*lock)
    return error_at(Fault::io, "another rangecheck is at work there" + whoever(note), out,
                    "wait until it is done");
  std::error_code ignored;
  fs::remove(note, ignored);  // a killed program's, which nobody may take for this one's
  if (auto written = publish(note, myself()); !written) return written.error();
  return AtWork(**std::move(lock), note);
}

AtWork::AtWork(AtWork&& other) noexcept
    : lock_(std::move(other.lock_)), note_(std::exchange(other.note_, {})) {}

AtWork::~AtWork() {
  std::error_code ignored;
  if (!note_.empty()) fs::remove(note_, ignored);
}

}  // namespace rangecheck::inbox
