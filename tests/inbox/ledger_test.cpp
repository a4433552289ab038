// SPDX-License-Identifier: MIT
// That no night does the same twice, and none leaves out what has changed.
#include <doctest/doctest.h>
#include <signal.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <fstream>
#include <thread>

#include "history/store.hpp"
#include "inbox/at_work.hpp"
#include "inbox/plan.hpp"
#include "night.hpp"

namespace rangecheck::inbox {
namespace {

namespace fs = std::filesystem;
using Ids = std::vector<std::string>;

/// A run, and which submissions it worked through.
struct Worked {
  Night night;
  Ids ids;
};

Worked night_of(Job job) {
  Worked out;
  job.on_progress = [&](const Progress& progress) {
    if (!progress.unchanged) out.ids.emplace_back(progress.submission);
  };
  auto night = run(job);
  if (!night) FAIL(to_string(night.error()));
  out.night = *std::move(night);
  std::ranges::sort(out.ids);
  return out;
}

/// Which files those below OUT are: writing one anew gives it another inode.
std::map<std::string, ino_t> inodes(const Fixture& fixture) {
  std::map<std::string, ino_t> out;
  for (const auto& entry : fs::recursive_directory_iterator(fixture.folder() / "out")) {
    struct stat facts {};
    if (entry.path().stem() == "history" || ::stat(entry.path().c_str(), &facts) != 0) continue;
    out[entry.path().string()] = facts.st_ino;
  }
  return out;
}

/// What a first night over the same inbox writes, of which nothing was known.
std::map<std::string, std::string> first_night(const Fixture& fixture, Job job) {
  job.out = fixture.folder() / "fresh";
  fs::remove_all(job.out);
  night_of(job);
  return fixture.files("fresh");
}

void replace_in(const fs::path& file, const std::string& what, const std::string& with) {
  std::ifstream in(file, std::ios::binary);
  std::string text(std::istreambuf_iterator<char>(in), {});
  const auto at = text.find(what);
  REQUIRE(at != std::string::npos);
  in.close();
  std::ofstream(file, std::ios::binary) << text.replace(at, what.size(), with);
}

/// Two clubs and two students, all taught by profiles of the fixture's own.
struct Taught : Fixture {
  Taught() {
    fs::copy(fs::path(RANGECHECK_SOURCE_DIR) / "profiles", folder() / "profiles",
             fs::copy_options::recursive);
    for (const auto& [student, id] :
         {std::pair("s-0001", "a"), std::pair("s-0001", "b"), std::pair("s-0002", "d")})
      add_of(student, id, "2026-03-06");
    replace_in(folder() / "inbox/b/submission.yaml", "7-iron", "driver");
    write("roster.csv", "id,name,language\ns-0001,Ann,\ns-0002,Bob,de\n");
  }
  Job job() const {
    Job job = Fixture::job();
    job.profiles = folder() / "profiles";
    job.roster = folder() / "roster.csv";
    return job;
  }
};

TEST_CASE("a night with nothing new reads, grades and writes nothing") {
  const Fixture fixture;
  for (const auto* id : {"a", "c"}) fixture.add_good(id);
  fixture.add_broken("b");
  const auto first = night_of(fixture.job());
  CHECK(first.ids == Ids{"a", "b", "c"});
  CHECK(first.night.unchanged == 0);
  const auto before = inodes(fixture);
  const auto second = night_of(fixture.job(3));
  CHECK(second.ids == Ids{});
  CHECK(second.night.unchanged == 3);
  CHECK(second.night.graded == first.night.graded);
  REQUIRE(second.night.set_aside.size() == 1);
  CHECK(to_string(second.night.set_aside[0].error) == to_string(first.night.set_aside[0].error));
  CHECK(inodes(fixture) == before);
}

TEST_CASE("one that changed is worked through, and tables are those of a night that graded all") {
  const Fixture fixture;
  for (const auto* id : {"a", "c", "e"}) fixture.add_good(id);
  fixture.add_broken("b");
  night_of(fixture.job());
  SUBCASE("a film") {
    replace_in(fixture.folder() / "inbox/c/submission.yaml", "176 cm", "181 cm");
    CHECK(night_of(fixture.job()).ids == Ids{"c", "e"});  // e's page is about c as well
  }
  SUBCASE("a new one") {
    fixture.add_of("s-0009", "d", "2026-03-01");
    CHECK(night_of(fixture.job()).ids == Ids{"d"});
  }
  SUBCASE("one that was mended") {
    fixture.add_of("s-0009", "b", "2026-03-01");
    CHECK(night_of(fixture.job()).ids == Ids{"b"});
  }
  SUBCASE("a page that somebody removed") {
    fs::remove(fixture.folder() / "out/students/a/page.html");
    CHECK(night_of(fixture.job()).ids == Ids{"a"});
  }
  SUBCASE("a table that somebody removed") {
    fs::remove(fixture.folder() / "out/checks.csv");
    CHECK(night_of(fixture.job()).ids == Ids{});
  }
  CHECK(fixture.files("out") == first_night(fixture, fixture.job()));
  CHECK(night_of(fixture.job()).ids == Ids{});
}

TEST_CASE("a file that was only touched or copied is no change") {
  const Fixture fixture;
  fixture.add_good("a");
  night_of(fixture.job());
  const auto film = fixture.folder() / "inbox/a/face-on.json";
  fs::copy_file(film, fixture.folder() / "copy");
  fs::rename(fixture.folder() / "copy", film);
  CHECK(night_of(fixture.job()).ids == Ids{});
  CHECK(night_of(fixture.job()).ids == Ids{});
}

TEST_CASE("what is taught regrades just what it touches") {
  const Taught all;
  night_of(all.job());
  CHECK(night_of(all.job()).ids == Ids{});
  SUBCASE("a profile") {
    replace_in(all.folder() / "profiles/parts/driver-numbers.yaml", "checks:", "checks:  # mine");
    CHECK(night_of(all.job()).ids == Ids{});
    replace_in(all.folder() / "profiles/neutral/driver-full.yaml", "version: 1",
               "version: 1\nconfidence: 0.7");
    CHECK(night_of(all.job()).ids == Ids{"b"});
  }
  SUBCASE("a student's own file") {
    all.write("profiles/students/s-0002.yaml",
              "version: 1\nbecause: a knee\nswitch-off: [lead-knee-flexion]\n");
    CHECK(night_of(all.job()).ids == Ids{"d"});
  }
  SUBCASE("a line of the roster") {
    all.write("roster.csv", "id,name,language\ns-0001,Anna,\ns-0002,Bob,de\n");
    CHECK(night_of(all.job()).ids == Ids{"a", "b"});
  }
  SUBCASE("words of a language") {
    all.write("profiles/words/de.yaml",
              "version: 1\nlanguage: de\nwork: { heading: Das zuerst }\n");
    CHECK(night_of(all.job()).ids == Ids{"d"});
  }
  SUBCASE("how films are asked for") {
    replace_in(all.folder() / "profiles/filming.yaml", "version: 1", "version: 1  # mine");
    CHECK(night_of(all.job()).ids == Ids{"a", "b", "d"});
  }
  SUBCASE("the unit") {
    Job job = all.job();
    job.length_unit = "cm";
    CHECK(night_of(job).ids == Ids{"a", "b", "d"});
    CHECK(all.files("out") == first_night(all, job));
    return;
  }
  CHECK(all.files("out") == first_night(all, all.job()));
}

TEST_CASE("an earlier submission that comes in later touches the later pages of its student only") {
  const Fixture fixture;
  fixture.add_of("s-0001", "a", "2026-03-20");
  fixture.add_of("s-0002", "b", "2026-03-20");
  fixture.add_of("s-0001", "z", "2026-03-13");
  night_of(fixture.job());
  fixture.add_of("s-0001", "m", "2026-03-16");
  CHECK(night_of(fixture.job()).ids == Ids{"a", "m"});
  CHECK(fixture.files("out") == first_night(fixture, fixture.job()));
  CHECK(night_of(fixture.job(4)).ids == Ids{});
}

TEST_CASE("what was set aside is tried again when it or what is taught changes, and not before") {
  const Taught all;
  all.add_broken("c");
  night_of(all.job());
  CHECK(night_of(all.job()).ids == Ids{});
  fs::remove(all.folder() / "out/set-aside/c.txt");
  CHECK(night_of(all.job()).ids == Ids{"c"});
  all.write("roster.csv", "id,name,language\ns-0001,Ann,\ns-0002,Bob,de\ns-0003,Cleo,\n");
  CHECK(night_of(all.job()).ids == Ids{"c"});
  all.write("inbox/c/face-on.json", "{");
  CHECK(night_of(all.job()).ids == Ids{"c"});
}

TEST_CASE("all or some can be asked for again") {
  const Fixture fixture;
  for (const auto* id : {"a", "b"}) fixture.add_good(id);
  night_of(fixture.job());
  const auto before = fixture.files("out");
  Job job = fixture.job();
  job.redo = Ids{};
  CHECK(night_of(job).ids == Ids{"a", "b"});
  job.redo = Ids{"b"};
  CHECK(night_of(job).ids == Ids{"b"});
  CHECK(fixture.files("out") == before);
  const auto store = history::Store::open_existing(history_file(job.out));
  REQUIRE(store);
  CHECK(*store->count_of("s-0001") == 2);  // nothing new was said
  job.redo = Ids{"bb"};
  const auto refused = run(job);
  REQUIRE_FALSE(refused);
  CHECK(refused.error().fault == Fault::bad_value);
}

TEST_CASE("a grade is kept with hashes of what it was given from") {
  const Fixture fixture;
  fixture.add_good("a");
  night_of(fixture.job());
  const auto record = [&] {
    const auto store = history::Store::open_existing(history_file(fixture.folder() / "out"));
    REQUIRE(store);
    return store->of_student("s-0001")->front().record;
  };
  const auto first = record();
  CHECK(first.inputs.size() == 32);
  CHECK(first.taught.size() == 32);
  replace_in(fixture.folder() / "inbox/a/submission.yaml", "176 cm", "181 cm");
  night_of(fixture.job());
  CHECK(record().inputs != first.inputs);
  CHECK(record().taught == first.taught);
}

TEST_CASE("a run that is killed at any moment is completed by the next") {
  const Fixture fixture;
  for (const auto* id : {"a", "c", "d"}) fixture.add_good(id);
  fixture.add_broken("b");
  const auto whole = first_night(fixture, fixture.job());
  Job all = fixture.job(1);
  all.redo = Ids{};  // so that each run has as much to do, however far the killed one came
  const auto begun = std::chrono::steady_clock::now();
  night_of(all);
  // A machine's speed is its own: the moments are shares of what a whole night takes here.
  const auto night_takes = std::chrono::steady_clock::now() - begun;
  fs::remove_all(all.out);
  int killed = 0;
  for (int twentieth = 0; twentieth < 20; ++twentieth) {
    CAPTURE(twentieth);
    const pid_t child = ::fork();
    if (child == 0) {
      static_cast<void>(run(all));
      ::_exit(0);
    }
    std::this_thread::sleep_for(night_takes * twentieth / 20);
    ::kill(child, SIGKILL);
    int status = 0;
    ::waitpid(child, &status, 0);
    killed += WIFSIGNALED(status);
    if (!fs::exists(fixture.folder() / "out")) continue;
    // What is there is whole, whoever wrote it; leftovers have names of their own.
    for (const auto& [path, text] : fixture.files("out"))
      if (whole.contains(path)) CHECK_MESSAGE(text == whole.at(path), path);
  }
  CHECK(killed > 3);
  night_of(fixture.job());
  CHECK(fixture.files("out") == whole);
}

TEST_CASE("runs that start together never mix, and say who is at work") {
  for (const int count : {2, 8}) {
    CAPTURE(count);
    const Fixture fixture;
    for (const auto* id : {"a", "c"}) fixture.add_good(id);
    fixture.add_broken("b");
    const auto whole = first_night(fixture, fixture.job());
    std::vector<std::optional<Result<Night>>> nights(static_cast<std::size_t>(count));
    {
      std::vector<std::jthread> threads;
      for (auto& night : nights) threads.emplace_back([&] { night.emplace(run(fixture.job(1))); });
    }
    int ran = 0;
    for (const auto& night : nights) {
      if (*night) {
        ++ran;
        continue;
      }
      CHECK(night->error().fault == Fault::io);
      CHECK(night->error().what.starts_with("another rangecheck is at work there"));
    }
    CHECK(ran >= 1);
    CHECK(fixture.files("out") == whole);
  }
}

TEST_CASE("a killed program holds no folder") {
  const Fixture fixture;
  fs::create_directories(fixture.folder() / "out");
  int ready[2];
  REQUIRE(::pipe(ready) == 0);
  const pid_t child = ::fork();
  if (child == 0) {
    const auto alone = AtWork::in(fixture.folder() / "out");
    static_cast<void>(!::write(ready[1], "x", 1));
    ::pause();
  }
  char byte = 0;
  REQUIRE(::read(ready[0], &byte, 1) == 1);
  const auto refused = AtWork::in(fixture.folder() / "out");
  REQUIRE_FALSE(refused);
  CHECK(refused.error().what.find("process " + std::to_string(child) + " on ") !=
        std::string::npos);
  ::kill(child, SIGKILL);
  ::waitpid(child, nullptr, 0);
  CHECK(AtWork::in(fixture.folder() / "out"));
  CHECK(fixture.files("out").empty());
}

/// A night in which `a` reads whole, then something of it is not there any more.
struct HalfUploaded : Fixture {
  explicit HalfUploaded(int how) {
    for (const auto* id : {"a", "b"}) add_good(id);
    CHECK(night_of(job()).night.graded.size() == 2);  // what reads whole is graded at once
    page = files("out").at("students/a/page.html");
    if (how == 0) add_broken("a");
    if (how == 1) fs::remove(folder() / "inbox/a/down-the-line.json");
    if (how == 2) write("inbox/a/submission.yaml", "student: s-0001\nclub: 7-iron\nvie");
  }
  Job job() const {
    Job job = Fixture::job();
    job.settle = std::chrono::hours(1);
    return job;
  }
  void age(std::chrono::hours hours) const {
    const auto then = fs::file_time_type::clock::now() - hours;
    for (const auto& entry : fs::directory_iterator(folder() / "inbox/a"))
      fs::last_write_time(entry.path(), then);
    fs::last_write_time(folder() / "inbox/a", then);
  }
  std::string page;
};

TEST_CASE("what may be half an upload waits, and keeps what there is of it") {
  for (const int how : {0, 1, 2}) {
    CAPTURE(how);
    const HalfUploaded half(how);
    const auto night = night_of(half.job()).night;
    REQUIRE(night.waiting.size() == 1);
    CHECK(night.waiting[0].submission == "a");
    CHECK_FALSE(night.waiting[0].error.what.empty());
    CHECK(night.set_aside.empty());
    CHECK(night.graded.size() == 1);
    const auto files = half.files("out");
    CHECK(files.at("students/a/page.html") == half.page);
    CHECK_FALSE(files.contains("set-aside/a.txt"));
    CHECK(files.at("coach.html").find("may not have arrived whole") != std::string::npos);
    CHECK(night_of(half.job()).night.waiting.size() == 1);
  }
}

TEST_CASE("what waits is graded when it is whole, and set aside when it is left alone") {
  const HalfUploaded half(0);
  CHECK(night_of(half.job()).night.waiting.size() == 1);
  SUBCASE("it is whole the next time") {
    half.add_good("a");
    CHECK(night_of(half.job()).night.graded.size() == 2);
    CHECK(half.files("out").at("students/a/page.html") == half.page);
  }
  SUBCASE("it was left alone") {
    half.age(std::chrono::hours(2));
    CHECK(night_of(half.job()).night.set_aside.size() == 1);
    CHECK(half.files("out").contains("set-aside/a.txt"));
  }
  SUBCASE("its clock is wrong") {
    half.age(std::chrono::hours(-48));
    CHECK(night_of(half.job()).night.set_aside.size() == 1);
  }
}

/// What a plan says, "ID: why" each.
Ids planned(const Job& job) {
  const auto found = plan(job);
  if (!found) FAIL(to_string(found.error()));
  Ids out;
  for (const auto& one : *found) {
    std::string line = one.submission + ": " + std::string(one.why ? told(*one.why) : "nothing");
    if (one.error) line += one.waits ? ", waits" : ", set aside";
    out.push_back(line);
  }
  return out;
}

TEST_CASE("a plan says what a run would do and why, and changes nothing") {
  const Fixture fixture;
  fixture.add_of("s-0001", "a", "2026-03-01");
  fixture.add_of("s-0001", "c", "2026-03-02");
  fixture.add_of("s-0002", "d", "");
  fixture.add_broken("b");
  Job job = fixture.job();
  CHECK(planned(job) == Ids{"a: new", "b: new, set aside", "c: new", "d: new"});
  job.settle = std::chrono::hours(1);
  CHECK(planned(job)[1] == "b: new, waits");
  CHECK_FALSE(fs::exists(job.out));
  job.settle = {};
  night_of(job);
  const auto before = inodes(fixture);
  CHECK(planned(job) == Ids{"a: nothing", "b: nothing", "c: nothing", "d: nothing"});

  replace_in(fixture.folder() / "inbox/a/submission.yaml", "176 cm", "181 cm");
  fs::remove(fixture.folder() / "out/students/d/page.html");
  CHECK(planned(job) == Ids{"a: its files have changed", "b: nothing",
                            "c: what its pages show has changed", "d: its report is missing"});
  job.redo = Ids{"b"};
  CHECK(planned(job)[1] == "b: asked for, set aside");
  job.redo.reset();
  CHECK(night_of(job).ids == Ids{"a", "c", "d"});  // just what was planned
  CHECK(planned(job) == Ids{"a: nothing", "b: nothing", "c: nothing", "d: nothing"});
  CHECK(inodes(fixture).size() == before.size());
}

}  // namespace
}  // namespace rangecheck::inbox
