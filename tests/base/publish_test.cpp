// SPDX-License-Identifier: MIT
#include "base/publish.hpp"

#include <doctest/doctest.h>
#include <sys/stat.h>
#include <unistd.h>
#include <zlib.h>

#include <fstream>
#include <iterator>

#include "base/publish_parts.hpp"
#include "base/read_file.hpp"
#include "scratch.hpp"

using namespace rangecheck;
namespace fs = std::filesystem;
using test::Scratch;

namespace {

void write(const fs::path& path, std::string_view bytes) {
  std::ofstream(path, std::ios::binary) << bytes;
}

std::string gzipped(std::string_view text) {
  const Scratch scratch;
  const gzFile file = ::gzopen((scratch.path / "z").c_str(), "wb");
  ::gzwrite(file, text.data(), static_cast<unsigned>(text.size()));
  ::gzclose(file);
  std::ifstream in(scratch.path / "z", std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

unsigned mode_of(const fs::path& path) {
  struct stat facts {};
  ::stat(path.c_str(), &facts);
  return facts.st_mode & 0777u;
}

}  // namespace

TEST_CASE("publish: the whole file, private, in folders that were missing, and nothing beside it") {
  const Scratch scratch;
  const fs::path file = scratch.path / "students" / "s-1" / "report.txt";
  REQUIRE(publish(file, "first"));
  REQUIRE(publish(file, "second"));
  CHECK(*read_file(file, "report.txt") == "second");
  CHECK(mode_of(file) == 0600u);
  CHECK(mode_of(file.parent_path()) == 0700u);
  CHECK(std::distance(fs::directory_iterator(file.parent_path()), {}) == 1);
}

TEST_CASE("what killed programs left of a file goes, and nothing else does") {
  const Scratch scratch;
  const fs::path folder = scratch.path / "out";
  fs::create_directories(folder / ".publish-a1B2c3");
  write(folder / ".publish-a1B2c3/book.xlsx", "half");
  write(folder / ".publish-Zz9z9z", "half");
  const auto others = {".publish-", ".publish-notes.txt", "publish-a1B2c3", "report.txt"};
  for (const auto* name : others) write(folder / name, "somebody's");
  fs::create_symlink("report.txt", folder / ".publish-linked");
  fs::create_symlink("report.txt", folder / ".publish-d4E5f6");
  // What is being written is no leftover.
  const auto published = publish_made(folder / "new.txt", [&](const fs::path& made) {
    remove_leftovers(folder);
    write(made, "whole");
    return Result<Nothing>(Nothing{});
  });
  REQUIRE(published);
  CHECK(*read_file(folder / "new.txt", "new.txt") == "whole");
  CHECK_FALSE(fs::exists(folder / ".publish-a1B2c3"));
  CHECK_FALSE(fs::exists(folder / ".publish-Zz9z9z"));
  for (const auto* name : others) CHECK(*read_file(folder / name, name) == "somebody's");
  for (const auto* name : {".publish-linked", ".publish-d4E5f6"})
    CHECK(fs::is_symlink(folder / name));
}

TEST_CASE("publish_in_parts: a long file is no leftover while it is being written") {
  const Scratch scratch;
  const fs::path file = scratch.path / "long.csv";
  REQUIRE(publish_in_parts(file, [&](const Write& write) {
    write(std::string(200'000, 'a'));
    remove_leftovers(scratch.path);
    write("z");
    return Result<Nothing>(Nothing{});
  }));
  CHECK(fs::file_size(file) == 200'001);
}

TEST_CASE("publish_made: the file that was made, private, and nothing that was beside it") {
  const Scratch scratch;
  const fs::path file = scratch.path / "out" / "book.xlsx";
  const auto make = [](const fs::path& made) -> Result<Nothing> {
    write(made.parent_path() / "scratch", "of the library");
    CHECK(mode_of(made.parent_path()) == 0700u);
    write(made, "made");
    return Nothing{};
  };
  REQUIRE(publish_made(file, make));
  CHECK(*read_file(file, "book.xlsx") == "made");
  CHECK(mode_of(file) == 0600u);
  CHECK(std::distance(fs::directory_iterator(file.parent_path()), {}) == 1);
}

TEST_CASE("publish_made: a failure leaves what was there, and nothing else") {
  const Scratch scratch;
  const fs::path file = scratch.path / "book.xlsx";
  REQUIRE(publish(file, "before"));
  const auto half = [](const fs::path& made) -> Result<Nothing> {
    write(made, "half of i");
    return Error{Fault::io, "the disk is full", {}, ""};
  };
  const auto published = publish_made(file, half);
  REQUIRE_FALSE(published);
  CHECK(published.error().what == "the disk is full");
  const auto nothing = [](const fs::path&) -> Result<Nothing> { return Nothing{}; };
  CHECK_FALSE(publish_made(file, nothing));
  CHECK(*read_file(file, "book.xlsx") == "before");
  CHECK(std::distance(fs::directory_iterator(scratch.path), {}) == 1);
}

TEST_CASE("publish: a failed write leaves what was there and no remains") {
  const Scratch scratch;
  const fs::path taken = scratch.path / "taken";
  fs::create_directories(taken / "inside");
  const auto result = publish(taken, "text");
  REQUIRE_FALSE(result);
  CHECK(result.error().fault == Fault::io);
  CHECK(fs::is_directory(taken / "inside"));
  CHECK(std::distance(fs::directory_iterator(scratch.path), {}) == 1);
}

TEST_CASE("publish: a file where a folder should be is an error that names it") {
  const Scratch scratch;
  write(scratch.path / "file", "x");
  const auto result = publish(scratch.path / "file" / "report.txt", "text");
  REQUIRE_FALSE(result);
  CHECK(result.error().where.file.find("file") != std::string::npos);
}

TEST_CASE("read_file: plain, compressed, empty") {
  const Scratch scratch;
  const fs::path file = scratch.path / "a.json";
  write(file, "[1]");
  CHECK(*read_file(file, "a.json") == "[1]");
  write(file, gzipped("[1, 2]"));
  CHECK(*read_file(file, "a.json") == "[1, 2]");
  write(file, "");
  CHECK(read_file(file, "a.json")->empty());
}

TEST_CASE("read_file: the limit holds for what comes out, so a bomb stops") {
  const Scratch scratch;
  const fs::path file = scratch.path / "bomb.json.gz";
  write(file, gzipped(std::string(std::size_t{3} << 20, ' ')));
  CHECK(fs::file_size(file) < 100000);
  CHECK(read_file(file, "bomb", std::size_t{3} << 20));
  const auto result = read_file(file, "bomb", std::size_t{2} << 20);
  REQUIRE_FALSE(result);
  CHECK(to_string(result.error()) ==
        "bomb: is larger than 2 MiB (check that it is the right file)");
}

TEST_CASE("read_file: odd gzip") {
  const Scratch scratch;
  const auto read = [&](const std::string& bytes) {
    write(scratch.path / "a.gz", bytes);
    const auto content = read_file(scratch.path / "a.gz", "a.gz", 1000);
    return content ? *content : to_string(content.error());
  };
  const std::string damaged = "a.gz: is cut short or damaged (gzip) (send the file again)";
  const std::string one = gzipped("[1]"), empty = gzipped("");
  // RFC 1952, 2.2: members may follow each other. What follows them and is none is left out, as
  // gzip(1) does.
  CHECK(read(one + gzipped("[2]")) == "[1][2]");
  CHECK(read(one + "garbage") == "[1]");
  CHECK(read(empty) == "");
  CHECK(read(gzipped(one)) == "a.gz: is compressed twice (compress it once, or not at all)");
  CHECK(read("\x1f\x8b") == damaged);
  for (std::size_t size = 3; size < one.size(); ++size) {
    CAPTURE(size);
    CHECK(read(one.substr(0, size)) == damaged);
  }
  std::string wrong = one;
  wrong[one.size() - 6] ^= 1;  // in the checksum
  CHECK(read(wrong) == damaged);
  CHECK(read(std::string(1000, 'x')).size() == 1000);
  CHECK(read(std::string(1001, 'x')).starts_with("a.gz: is larger than "));
}

TEST_CASE("read_file: cut short, missing, a folder, a pipe") {
  const Scratch scratch;
  const std::string whole = gzipped("some text that is long enough to be cut in the middle");
  write(scratch.path / "cut.gz", whole.substr(0, whole.size() - 9));
  CHECK(to_string(read_file(scratch.path / "cut.gz", "cut.gz").error()) ==
        "cut.gz: is cut short or damaged (gzip) (send the file again)");
  CHECK(to_string(read_file(scratch.path / "none", "none").error()) ==
        "none: can't be read: No such file or directory");
  CHECK(to_string(read_file(scratch.path, "folder").error()) == "folder: isn't a file");
  REQUIRE(::mkfifo((scratch.path / "pipe").c_str(), 0600) == 0);
  CHECK(to_string(read_file(scratch.path / "pipe", "pipe").error()) == "pipe: isn't a file");
}
