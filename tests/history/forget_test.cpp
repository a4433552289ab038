// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>
#include <sqlite3.h>
#include <sys/stat.h>

#include <filesystem>
#include <fstream>
#include <iterator>

#include "records.hpp"
#include "scratch.hpp"

namespace rangecheck::history {
namespace {

namespace fs = std::filesystem;

Record of(const std::string& student, const std::string& submission) {
  Record one = record(submission, "2026-03-14", {check("heel-gap", 0.35, 0.01)});
  one.student = student;
  return one;
}

/// All bytes of the history, its log and its index.
std::string bytes_in(const fs::path& folder) {
  std::string bytes;
  for (const auto& entry : fs::directory_iterator(folder)) {
    std::ifstream stream(entry.path(), std::ios::binary);
    bytes.append(std::istreambuf_iterator<char>(stream), {});
  }
  return bytes;
}

Store filled(const fs::path& file) {
  auto store = Store::open(file);
  REQUIRE(store);
  // Enough for several pages, so that some become free.
  for (int i = 0; i < 40; ++i) {
    REQUIRE(*store->add(of("goes-away", "gone-" + std::to_string(i)), at(i)));
    REQUIRE(*store->add(of("s-2", "stays-" + std::to_string(i)), at(i)));
  }
  return *std::move(store);
}

TEST_CASE("forget: no byte of the student is left in any file, while the history is open") {
  const test::Scratch scratch;
  auto store = filled(scratch.path / "history.sqlite");
  REQUIRE(bytes_in(scratch.path).find("goes-away") != std::string::npos);
  REQUIRE(bytes_in(scratch.path).find("gone-39") != std::string::npos);
  CHECK(*store.count_of("goes-away") == 40);
  CHECK(*store.forget("goes-away") == 40);
  const std::string left = bytes_in(scratch.path);
  CHECK(left.find("goes-away") == std::string::npos);
  CHECK(left.find("gone-") == std::string::npos);
  CHECK(left.find("stays-39") != std::string::npos);
  CHECK(*store.students() == std::vector<std::string>{"s-2"});
  CHECK(store.of_student("s-2")->size() == 40);
  CHECK(store.of_student("s-2")->front().record.checks.size() == 1);
  CHECK(*store.forget("goes-away") == 0);
}

TEST_CASE("forget: what a killed call had only deleted is wiped by the next") {
  const test::Scratch scratch;
  const fs::path file = scratch.path / "history.sqlite";
  auto store = filled(file);
  sqlite3* other = nullptr;
  REQUIRE(sqlite3_open(file.c_str(), &other) == SQLITE_OK);
  REQUIRE(sqlite3_exec(other, "DELETE FROM grading WHERE student = 'goes-away'", nullptr, nullptr,
                       nullptr) == SQLITE_OK);
  sqlite3_close(other);
  REQUIRE(bytes_in(scratch.path).find("goes-away") != std::string::npos);
  CHECK(*store.forget("goes-away") == 0);
  CHECK(bytes_in(scratch.path).find("goes-away") == std::string::npos);
}

TEST_CASE("forget: a reader in the way is told of, and the same call again completes it") {
  const test::Scratch scratch;
  const fs::path file = scratch.path / "history.sqlite";
  auto store = filled(file);
  sqlite3* reader = nullptr;
  REQUIRE(sqlite3_open(file.c_str(), &reader) == SQLITE_OK);
  REQUIRE(sqlite3_exec(reader, "BEGIN; SELECT count(*) FROM grading", nullptr, nullptr, nullptr) ==
          SQLITE_OK);
  const auto refused = store.forget("goes-away");
  REQUIRE_FALSE(refused);
  CHECK(refused.error().fault == Fault::io);
  sqlite3_close(reader);
  CHECK(store.forget("goes-away"));
  CHECK(bytes_in(scratch.path).find("goes-away") == std::string::npos);
}

TEST_CASE("forget: a submission's id that was given again is of its last student") {
  const test::Scratch scratch;
  auto store = Store::open(scratch.path / "history.sqlite");
  REQUIRE(store);
  CHECK(*store->add(of("s-1", "latest"), at(1)));
  CHECK(*store->add(of("s-1", "own"), at(2)));
  CHECK(*store->add(of("s-2", "latest"), at(3)));
  CHECK(*store->submissions_of("s-1") == std::vector<std::string>{"own"});
  CHECK(*store->submissions_of("s-2") == std::vector<std::string>{"latest"});
}

TEST_CASE("store: for its owner only, whatever the umask") {
  const test::Scratch scratch;
  const mode_t before = ::umask(0);
  const auto store = filled(scratch.path / "history.sqlite");
  ::umask(before);
  int files = 0;
  for (const auto& entry : fs::directory_iterator(scratch.path)) {
    ++files;
    CHECK((entry.status().permissions() & fs::perms::mask) ==
          (fs::perms::owner_read | fs::perms::owner_write));
  }
  CHECK(files == 3);
}

}  // namespace
}  // namespace rangecheck::history
