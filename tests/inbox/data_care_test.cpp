// SPDX-License-Identifier: MIT
// The parts of pseudonyms and of forgetting; tests/cli/data_care.py holds whole runs.
#include <doctest/doctest.h>
#include <unistd.h>

#include <fstream>
#include <iterator>
#include <thread>

#include "inbox/at_work.hpp"
#include "inbox/forget.hpp"
#include "inbox/key_file.hpp"
#include "inbox/masked.hpp"
#include "inbox/student_rows.hpp"
#include "night.hpp"

namespace rangecheck::inbox {
namespace {

namespace fs = std::filesystem;

std::string content(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

std::vector<KeyFile::Whom> students(int from, int count) {
  std::vector<KeyFile::Whom> out;
  for (int i = from; i < from + count; ++i)
    out.push_back({Named::student, "s-" + std::to_string(i)});
  return out;
}

TEST_CASE("rows of a student go, all else stays byte for byte") {
  const std::string kept = "b,\"s-1, or not\",x\r\nc,s-2,\"a \"\"s-1\"\"\r\nline\"\r\nd,s-10,\r\n";
  const auto cut = without_rows_of(
      "s-1", "submission,student,word\r\na,s-1,\"two\r\nlines\"\r\n" + kept + "e,\"s-1\",z");
  REQUIRE(cut);
  CHECK(cut->rest == "submission,student,word\r\n" + kept);
  CHECK(cut->removed == 2);
  CHECK(cut->students == std::set<std::string>{"s-1", "s-1, or not", "s-2", "s-10"});
}

TEST_CASE("a table that can't be cut is said to be none") {
  for (const auto* table : {"", "submission,pupil\na,s-1\n", "submission,student\na,s-1,more\n",
                            "submission,student\n\"a,s-1\n"}) {
    CAPTURE(table);
    CHECK_FALSE(without_rows_of("s-1", table));
  }
}

TEST_CASE("a key gives each its own pseudonym, once, and reads them again") {
  const Fixture fixture;
  const fs::path file = fixture.folder() / "deep/key.csv";
  auto key = KeyFile::read(file);
  REQUIRE(key);
  REQUIRE(key->issue(students(0, 2000)));
  std::set<std::string> given;
  for (const auto& [whom, pseudonym] : key->all()) {
    CHECK(looks_like_pseudonym(pseudonym, Named::student));
    given.insert(pseudonym);
  }
  CHECK(given.size() == 2000);
  REQUIRE(key->issue(students(1000, 2000)));
  auto again = KeyFile::read(file);
  REQUIRE(again);
  CHECK(again->all() == key->all());
  CHECK(again->all().size() == 3000);
  CHECK(fs::status(file).permissions() == (fs::perms::owner_read | fs::perms::owner_write));
}

TEST_CASE("folders of any name have pseudonyms too, and no two the same") {
  const Fixture fixture;
  const fs::path file = fixture.folder() / "key.csv";
  auto key = KeyFile::read(file);
  REQUIRE(key);
  const std::vector<KeyFile::Whom> odd = {
      {Named::submission, "=1+1"},    {Named::submission, "'=1+1"}, {Named::submission, "a\nb"},
      {Named::submission, "a\\x0ab"}, {Named::submission, "a, b"},  {Named::submission, "#3d"},
      {Named::submission, "\xff"},    {Named::student, "a, b"}};
  REQUIRE(key->issue(odd));
  const auto again = KeyFile::read(file);
  REQUIRE(again);
  std::set<std::string> given;
  for (const auto& whom : odd) given.insert(again->of(whom));
  CHECK(given.size() == odd.size());
  CHECK_FALSE(given.contains(""));
}

TEST_CASE("two programs with one key lose no pseudonym") {
  const Fixture fixture;
  const fs::path file = fixture.folder() / "key.csv";
  std::vector<std::jthread> programs;
  for (int program = 0; program < 4; ++program) {
    programs.emplace_back([&file, program] {
      auto key = KeyFile::read(file);
      for (int i = 0; key && i < 20; ++i)
        static_cast<void>(key->issue(students(100 * (program / 2) + i, 1)));
    });
  }
  programs.clear();
  CHECK(KeyFile::read(file)->all().size() == 40);
}

TEST_CASE("a damaged key is refused: without it everyone would get new pseudonyms") {
  const Fixture fixture;
  for (const auto* text :
       {"id,name\n", "kind,id,pseudonym\nstudent,s-1\n", "kind,id,pseudonym\nstudent,s-1,mara\n",
        "kind,id,pseudonym\nstudent,s-1,student-k7m3q\nstudent,s-2,student-k7m3q\n"}) {
    CAPTURE(text);
    const fs::path file = fixture.folder() / "key.csv";
    fixture.write("key.csv", text);
    fs::permissions(file, fs::perms::owner_read | fs::perms::owner_write);
    const auto key = KeyFile::read(file);
    REQUIRE_FALSE(key);
    CHECK(key.error().fault == Fault::bad_value);
    CHECK(content(file) == text);
  }
}

TEST_CASE("what a pseudonym looks like") {
  CHECK(looks_like_pseudonym("student-k7m3q", Named::student));
  CHECK(looks_like_pseudonym("submission-k7m3q4t", Named::submission));
  for (const auto* id : {"student-12345", "student-k7m3", "student-k7m3qq", "student-a7m3q",
                         "student-k1m3q", "k7m3q", "submission-k7m3q"})
    CHECK_FALSE(looks_like_pseudonym(id, Named::student));
}

TEST_CASE("messages lose whom they tell of, and keep where and what") {
  CHECK(masked("s-1 and s-10, as_s-1.", {{"s-1", "X"}}) == "X and s-10, as_X.");
  CHECK(masked("Lin: the Line of Lin", {{"Lin", "…"}, {"", "never"}}) == "…: the Line of …");
  CHECK(masked("Ada Lovell", {{"Ada", "a"}, {"Ada Lovell", "both"}}) == "both");
  CHECK(plain_file_name("Mara_face-on.json.gz") == "…_face-on.json.gz");
  CHECK(plain_file_name("Übung 2.csv") == "… 2.csv");

  const intake::Location location{"mara-7", {}, "inbox/mara-7"};
  const Error error{Fault::bad_value,
                    "student \"Mara \"the first\"\" isn't in the roster",
                    {.file = "mara-7/films/Mara.json", .line = 4, .frame = 2, .key = "/Mara.jpg/0"},
                    "did you mean s-0401?"};
  const Error out = masked(error, location, "submission-k7m3q4t", {{"s-0401", "student-k7m3q"}});
  CHECK(to_string(out) ==
        "submission-k7m3q4t/…/….json:4: frame 2: student \"…\" isn't in the "
        "roster (did you mean student-k7m3q?)");
}

TEST_CASE("a folder's owner is who its result names, not who had the id before") {
  const Fixture fixture;
  const auto result = [](const std::string& student) {
    return R"({"format": "rangecheck-result", "student": {"id": ")" + student + R"("}})";
  };
  fixture.write("out/students/latest/result.json", result("s-2"));
  fixture.write("out/students/own/result.json", result("s-1"));
  fixture.write("out/students/broken/result.json", "{");
  fixture.write("out/set-aside/a.txt", "is cut short\nstudent: s-1\n");
  fixture.write("out/set-aside/s-1-b.txt", "there is no such key\n");
  fixture.write("out/set-aside/s-1-c.txt", "is cut short\nstudent: s-1-c\n");
  {
    auto store = history::Store::open(history_file(fixture.folder() / "out"));
    REQUIRE(store);
    history::Record record;
    record.submission = "latest";
    record.student = "s-1";
    REQUIRE(store->add(record, {}));
  }
  const auto done = forget({.student = "s-1", .out = fixture.folder() / "out", .pseudonyms = {}});
  REQUIRE(done);
  CHECK(done->traces.grades == 1);
  CHECK(done->traces.doubtful.size() == 2);
  const auto left = fixture.files("out");
  CHECK(left.size() == 4);
  for (const auto* path : {"students/latest/result.json", "students/broken/result.json",
                           "set-aside/s-1-b.txt", "set-aside/s-1-c.txt"}) {
    CAPTURE(path);
    CHECK(left.contains(path));
  }
}

TEST_CASE("while a run is at work nobody is forgotten") {
  const Fixture fixture;
  fixture.write("out/students/own/result.json",
                R"({"format": "rangecheck-result", "student": {"id": "s-1"}})");
  const Forgetting what{.student = "s-1", .out = fixture.folder() / "out", .pseudonyms = {}};
  {
    const auto run = AtWork::in(what.out);
    REQUIRE(run);
    const auto refused = forget(what);
    REQUIRE_FALSE(refused);
    CHECK(refused.error().fault == Fault::io);
    CHECK(refused.error().what.starts_with("another rangecheck is at work there: process " +
                                           std::to_string(::getpid()) + " on "));
  }
  CHECK(forget(what));
  CHECK(fixture.files("out").empty());
}

}  // namespace
}  // namespace rangecheck::inbox
