// SPDX-License-Identifier: MIT
#include "history/store.hpp"

#include <doctest/doctest.h>
#include <sqlite3.h>

#include <filesystem>
#include <fstream>
#include <memory>
#include <thread>

#include "records.hpp"
#include "scratch.hpp"

namespace rangecheck::history {
namespace {

namespace fs = std::filesystem;

/// A folder with the history in it.
struct Scratch : test::Scratch {
  fs::path file() const { return path / "history.sqlite"; }
};

/// Runs `sql` on the file with SQLite itself, past the store.
void run_sql(const fs::path& file, const char* sql) {
  sqlite3* handle = nullptr;
  REQUIRE(sqlite3_open(file.c_str(), &handle) == SQLITE_OK);
  CHECK(sqlite3_exec(handle, sql, nullptr, nullptr, nullptr) == SQLITE_OK);
  sqlite3_close(handle);
}

Record full_record() {
  Record one =
      record("a-7-iron", "2026-03-14T18:22:00+02:00",
             {check("heel-gap", 0.123456789012345, 0.01),
              check("top/shoulder-turn", std::nullopt, 0, {.lower_si = 1, .upper_si = {}})});
  one.work_on = {"heel-gap", "top/shoulder-turn"};
  one.checks[1].position = std::nullopt;
  one.checks[1].dimension = Dimension::time;
  one.checks[1].unit = "s";
  one.checks[1].title = "Übung \"a'; DROP TABLE grading; --";
  return one;
}

TEST_CASE("store: what is kept comes back whole, also after it was closed") {
  const Scratch scratch;
  {
    auto store = Store::open(scratch.file());
    REQUIRE(store);
    CHECK(*store->add(full_record(), at(1000)));
  }
  auto store = Store::open_existing(scratch.file());
  REQUIRE(store);
  const auto found = store->of_student("s-1");
  REQUIRE(found);
  REQUIRE(found->size() == 1);
  CHECK(found->front().record == full_record());
  CHECK(found->front().recorded == at(1000));
  CHECK(store->of_student("s-2")->empty());
  CHECK(*store->students() == std::vector<std::string>{"s-1"});
}

TEST_CASE("store: of two that were received at one time the id decides, not the night") {
  const Scratch scratch;
  auto store = Store::open(scratch.file());
  REQUIRE(store);
  CHECK(*store->add(record("b", "2026-03-14", {}), at(1)));
  CHECK(*store->add(record("a", "2026-03-14T00:00:00Z", {}), at(2)));
  CHECK(*store->add(record("z", "2026-03-13", {}), at(3)));
  std::vector<std::string> ids;
  const auto found = store->of_student("s-1");
  REQUIRE(found);
  for (const auto& each : *found) ids.push_back(each.record.submission);
  CHECK(ids == std::vector<std::string>{"z", "a", "b"});
}

TEST_CASE("store: a submission is its last student's, first recorded when that one's was") {
  const Scratch scratch;
  auto store = Store::open(scratch.file());
  REQUIRE(store);
  Record one = record("a", "", {});
  CHECK(*store->add(one, at(1)));
  CHECK(*store->first_recorded("s-1", "a") == at(1));
  one.student = "s-2";
  CHECK(*store->add(one, at(2)));
  one.percent = 71;
  CHECK(*store->add(one, at(3)));
  CHECK(store->of_student("s-1")->empty());
  const auto found = store->of_student("s-2");
  REQUIRE(found);
  REQUIRE(found->size() == 1);
  CHECK(found->front().recorded == at(2));
  CHECK(*store->first_recorded("s-2", "a") == at(2));
  CHECK_FALSE(*store->first_recorded("s-2", "b"));
}

TEST_CASE("store: a grade that says the same again is not kept twice, a new one is") {
  const Scratch scratch;
  auto store = Store::open(scratch.file());
  REQUIRE(store);
  const Record first = record("a", "2026-03-14", {check("heel-gap", 0.35, 0.01)});
  CHECK(*store->add(first, at(1)));
  CHECK_FALSE(*store->add(first, at(2)));
  Record other = first;
  other.checks[0].value_si = 0.36;
  CHECK(*store->add(other, at(3)));
  // Back again is a change as well.
  CHECK(*store->add(first, at(4)));
  const auto found = store->of_student("s-1");
  REQUIRE(found->size() == 1);
  CHECK(found->front().record == first);
  CHECK(found->front().recorded == at(1));
}

TEST_CASE("store: submissions come in the order in which they were received, whatever the zone") {
  const Scratch scratch;
  auto store = Store::open(scratch.file());
  REQUIRE(store);
  // 02:00 in Tokyo is the evening before in London.
  CHECK(*store->add(record("late", "2026-03-14T23:00:00Z", {}), at(1)));
  CHECK(*store->add(record("early", "2026-03-15T02:00:00+09:00", {}), at(2)));
  // 2026-03-20T00:00:00Z
  CHECK(*store->add(record("undated", "", {}), at(1773964800)));
  const auto found = store->of_student("s-1");
  REQUIRE(found->size() == 3);
  CHECK((*found)[0].record.submission == "early");
  CHECK((*found)[1].record.submission == "late");
  CHECK((*found)[2].record.submission == "undated");
}

TEST_CASE("store: for its owner only") {
  const Scratch scratch;
  auto store = Store::open(scratch.file());
  REQUIRE(store);
  CHECK(*store->add(full_record(), at(1)));
  for (const auto& entry : fs::directory_iterator(scratch.path)) {
    CAPTURE(entry.path());
    CHECK((entry.status().permissions() & fs::perms::all) ==
          (fs::perms::owner_read | fs::perms::owner_write));
  }
}

TEST_CASE("store: what is no history of ours is refused and left as it is") {
  const Scratch scratch;
  CHECK(to_string(Store::open_existing(scratch.file()).error()).find("there is no history") !=
        std::string::npos);
  CHECK_FALSE(fs::exists(scratch.file()));

  std::ofstream(scratch.file()) << "a text that is longer than the head of a database file, "
                                   "which has one hundred bytes, so that it can't be taken for one";
  CHECK(to_string(Store::open(scratch.file()).error()) ==
        "history.sqlite: can't be used: file is not a database "
        "(move it away; a new one is begun in its place)");
  fs::remove(scratch.file());

  run_sql(scratch.file(), "CREATE TABLE bills (id INTEGER)");
  CHECK(to_string(Store::open(scratch.file()).error()) ==
        "history.sqlite: is another program's database (move it away)");
  fs::remove(scratch.file());

  REQUIRE(Store::open(scratch.file()));
  run_sql(scratch.file(), "PRAGMA user_version = 2");
  CHECK(to_string(Store::open(scratch.file()).error()) ==
        "history.sqlite: is of a later version of rangecheck (use that version)");
  fs::remove(scratch.file());

  std::ofstream(scratch.path / "elsewhere").flush();
  fs::create_symlink(scratch.path / "elsewhere", scratch.file());
  CHECK_FALSE(Store::open(scratch.file()));
  CHECK(fs::file_size(scratch.path / "elsewhere") == 0);
}

TEST_CASE("store: a word that nobody of us wrote is an error, not a guess") {
  const Scratch scratch;
  auto store = Store::open(scratch.file());
  REQUIRE(store);
  CHECK(*store->add(full_record(), at(1)));
  run_sql(scratch.file(), "UPDATE check_result SET verdict = 'splendid' WHERE place = 0");
  const auto found = store->of_student("s-1");
  REQUIRE_FALSE(found);
  CHECK(found.error().what == "the history holds an unknown word: \"splendid\"");
}

TEST_CASE("store: several writers at once lose nothing") {
  const Scratch scratch;
  REQUIRE(Store::open(scratch.file()));
  constexpr int writers = 4, each = 25;
  std::vector<std::jthread> threads;
  for (int w = 0; w < writers; ++w) {
    threads.emplace_back([&, w] {
      auto store = Store::open(scratch.file());
      if (!store) return;
      for (int i = 0; i < each; ++i) {
        Record one = full_record();
        one.submission = std::to_string(w) + "-" + std::to_string(i);
        static_cast<void>(store->add(one, at(i)));
      }
    });
  }
  threads.clear();
  auto store = Store::open(scratch.file());
  REQUIRE(store);
  CHECK(store->of_student("s-1")->size() == writers * each);
}

}  // namespace
}  // namespace rangecheck::history
