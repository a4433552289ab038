// SPDX-License-Identifier: MIT
#include "inbox/inbox.hpp"

#include <doctest/doctest.h>

#include <mutex>
#include <set>

#include "night.hpp"

namespace rangecheck::inbox {
namespace {

namespace fs = std::filesystem;

TEST_CASE("a broken submission is set aside and stops no other") {
  const Fixture fixture;
  fixture.add_good("a");
  fixture.add_broken("b");
  fixture.add_good("c");
  const auto night = run(fixture.job());
  REQUIRE(night);
  REQUIRE(night->set_aside.size() == 1);
  CHECK(night->set_aside[0].submission == "b");
  CHECK(night->graded.size() == 2);
  const auto files = fixture.files("out");
  for (const auto* path :
       {"students/a/report.txt", "students/a/result.json", "students/c/report.txt",
        "set-aside/b.txt", "checks.csv", "submissions.csv", "rangecheck.xlsx"}) {
    CAPTURE(path);
    CHECK(files.contains(path));
  }
  CHECK_FALSE(files.contains("students/b/report.txt"));
  CHECK(files.at("set-aside/b.txt").find("face-on.json") != std::string::npos);
}

TEST_CASE("the number of workers changes no byte") {
  const Fixture fixture;
  for (const auto* id : {"a", "c", "d", "f"}) fixture.add_good(id);
  for (const auto* id : {"b", "e"}) fixture.add_broken(id);
  REQUIRE(run(fixture.job(1)));
  const auto alone = fixture.files("out");
  fs::remove_all(fixture.folder() / "out");
  REQUIRE(run(fixture.job(5)));
  CHECK(fixture.files("out") == alone);
}

TEST_CASE("the report of a submission that is now set aside goes, other people's stay") {
  const Fixture fixture;
  fixture.add_good("a");
  fixture.write("out/students/z/report.txt", "of a submission that is not in the inbox");
  REQUIRE(run(fixture.job()));
  CHECK(fixture.files("out").contains("students/a/report.txt"));
  fixture.add_broken("a");
  REQUIRE(run(fixture.job()));
  CHECK_FALSE(fs::exists(fixture.folder() / "out/students/a"));
  CHECK(fixture.files("out").contains("set-aside/a.txt"));
  CHECK(fixture.files("out").contains("students/z/report.txt"));
}

TEST_CASE("a submission that has been mended is no longer set aside") {
  const Fixture fixture;
  fixture.add_broken("a");
  REQUIRE(run(fixture.job()));
  CHECK(fixture.files("out").contains("set-aside/a.txt"));
  fixture.add_good("a");
  REQUIRE(run(fixture.job()));
  CHECK_FALSE(fixture.files("out").contains("set-aside/a.txt"));
}

TEST_CASE("reports are for their owner's eyes only") {
  const Fixture fixture;
  fixture.add_good("a");
  REQUIRE(run(fixture.job()));
  const auto others = fs::perms::group_all | fs::perms::others_all;
  for (const auto* path :
       {"students/a/report.txt", "checks.csv", "submissions.csv", "rangecheck.xlsx"}) {
    CAPTURE(path);
    const auto allowed = fs::status(fixture.folder() / "out" / path).permissions();
    CHECK((allowed & others) == fs::perms::none);
  }
}

TEST_CASE("nothing is written through a link in the output folder") {
  const Fixture fixture;
  fixture.add_good("a");
  fs::create_directories(fixture.folder() / "elsewhere");
  fs::create_directories(fixture.folder() / "out/students");
  fs::create_directory_symlink(fixture.folder() / "elsewhere", fixture.folder() / "out/students/a");
  const auto night = run(fixture.job());
  REQUIRE_FALSE(night);
  CHECK(night.error().fault == Fault::io);
  CHECK(fixture.files("elsewhere").empty());
}

TEST_CASE("progress is told once a submission, with its own outcome") {
  const Fixture fixture;
  fixture.add_good("a");
  fixture.add_broken("b");
  Job job = fixture.job(2);
  std::set<std::string> graded, set_aside;
  job.on_progress = [&](const Progress& progress) {
    CHECK(progress.of == 2);
    CHECK(progress.done == graded.size() + set_aside.size() + 1);
    (progress.set_aside ? set_aside : graded).emplace(progress.submission);
  };
  REQUIRE(run(job));
  CHECK(graded == std::set<std::string>{"a"});
  CHECK(set_aside == std::set<std::string>{"b"});
}

TEST_CASE("an empty inbox gives tables with a header and nothing else") {
  const Fixture fixture;
  const auto night = run(fixture.job());
  REQUIRE(night);
  CHECK(night->graded.empty());
  const auto files = fixture.files("out");
  CHECK(files.size() == 4);
  for (const auto* path : {"checks.csv", "submissions.csv", "rangecheck.xlsx"})
    CHECK(files.contains(path));
}

TEST_CASE("a workbook that can't be put in its place leaves nothing half done") {
  const Fixture fixture;
  fixture.add_good("a");
  fixture.write("out/rangecheck.xlsx/in-the-way", "a folder of that name");
  const auto night = run(fixture.job());
  REQUIRE_FALSE(night);
  CHECK(night.error().fault == Fault::io);
  for (const auto& entry : fs::directory_iterator(fixture.folder() / "out"))
    CHECK(entry.path().filename().string().front() != '.');
}

TEST_CASE("what can't run at all is an error of the right kind") {
  const Fixture fixture;
  Job job = fixture.job();
  SUBCASE("no inbox") {
    job.inbox = fixture.folder() / "nowhere";
    const auto night = run(job);
    REQUIRE_FALSE(night);
    CHECK(night.error().fault == Fault::io);
  }
  SUBCASE("the output folder is a file") {
    fixture.write("out", "a file");
    const auto night = run(job);
    REQUIRE_FALSE(night);
    CHECK(night.error().fault == Fault::io);
  }
  SUBCASE("the output folder lies in the inbox") {
    job.out = job.inbox / "deep" / ".." / "out";
    const auto night = run(job);
    REQUIRE_FALSE(night);
    CHECK(night.error().fault == Fault::bad_value);
  }
  SUBCASE("no profiles") {
    job.profiles = fixture.folder() / "nowhere";
    const auto night = run(job);
    REQUIRE_FALSE(night);
    CHECK(night.error().fault != Fault::io);
  }
  SUBCASE("no roster where one was named") {
    job.roster = fixture.folder() / "nowhere.csv";
    const auto night = run(job);
    REQUIRE_FALSE(night);
    CHECK(night.error().fault == Fault::bad_profile);
  }
}

}  // namespace
}  // namespace rangecheck::inbox
