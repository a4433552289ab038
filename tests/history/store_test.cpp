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
  run_sql(scratch.file(), "PRAGMA user_version = 3");
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

/// The tables as version 1 made them.
constexpr auto first_form = R"sql(
CREATE TABLE grading (
  id INTEGER PRIMARY KEY,
  recorded INTEGER NOT NULL,
  submission TEXT NOT NULL,
  student TEXT NOT NULL,
  received TEXT NOT NULL,
  club TEXT NOT NULL,
  swing TEXT NOT NULL,
  profile TEXT NOT NULL,
  version TEXT NOT NULL,
  percent REAL,
  percent_u REAL NOT NULL,
  work_on TEXT NOT NULL
);
CREATE INDEX grading_by_student ON grading (student);
CREATE INDEX grading_by_submission ON grading (submission);
CREATE TABLE check_result (
  grading INTEGER NOT NULL REFERENCES grading ON DELETE CASCADE,
  place INTEGER NOT NULL,
  id TEXT NOT NULL,
  title TEXT NOT NULL,
  position TEXT NOT NULL,
  dimension TEXT NOT NULL,
  unit TEXT NOT NULL,
  verdict TEXT NOT NULL,
  value REAL,
  u REAL NOT NULL,
  band_low REAL,
  band_high REAL,
  PRIMARY KEY (grading, place)
) WITHOUT ROWID;
PRAGMA application_id = 1919117419;
PRAGMA user_version = 1;
INSERT INTO grading VALUES (7, 1000, 'a', 's-1', '2026-03-14', '7-iron', 'full', 'p', '0.1.0', 70,
  4, 'heel-gap');
INSERT INTO check_result VALUES (7, 0, 'heel-gap', 'Heel gap', 'address', 'length', 'in', 'unsure',
  0.35, 0.01, 0.3, 0.4);
)sql";

TEST_CASE("store: a file of version 1 opens and keeps its records") {
  const Scratch scratch;
  run_sql(scratch.file(), first_form);
  const auto check_it = [&] {
    auto store = Store::open_existing(scratch.file());
    REQUIRE(store);
    const auto found = store->of_student("s-1");
    REQUIRE(found);
    REQUIRE(found->size() == 1);
    const Record& kept = found->front().record;
    CHECK(kept.submission == "a");
    CHECK(kept.percent == 70.0);
    CHECK(kept.inputs == "");
    CHECK(kept.taught == "");
    CHECK(kept.checks == std::vector<CheckRecord>{check("heel-gap", 0.35, 0.01)});
    CHECK(found->front().recorded == at(1000));
    CHECK(store->all_worked()->empty());
    const auto last = store->last_gradings();
    REQUIRE(last->size() == 1);
    CHECK(last->front().id == 7);
    CHECK(last->front().first_recorded == at(1000));
  };
  check_it();
  check_it();  // and is not changed again
  auto store = Store::open(scratch.file());
  REQUIRE(store);
  Record again = store->of_student("s-1")->front().record;
  again.inputs = "hash";
  CHECK(*store->add(again, at(2000)));
  CHECK(store->of_student("s-1")->front().record == again);
  CHECK(store->of_student("s-1")->front().recorded == at(1000));
}

Worked worked(const std::string& submission) {
  return {.submission = submission,
          .student = "s-1",
          .received = "2026-03-14",
          .club = "7-iron",
          .swing = "full",
          .style = "neutral",
          .limits = {"no deep knee flexion", "limited hip rotation"},
          .stamp = "stamp",
          .inputs = "inputs",
          .taught = "taught",
          .shown = "shown",
          .summary = std::string("any\0bytes", 9)};
}

TEST_CASE("ledger: what is known comes back whole, until it is begun anew") {
  const Scratch scratch;
  const Record one = record("a", "2026-03-14", {});
  {
    auto store = Store::open(scratch.file());
    REQUIRE(store);
    const auto id = store->keep(worked("a"), std::string("\0\1", 2), &one, at(1));
    REQUIRE(id);
    CHECK(*store->keep(worked("a"), std::string("\0\1", 2), &one, at(2)) == *id);
    Worked failed = worked("b");
    failed.error = Error{Fault::bad_value, "what", {"b/x.json", 3, 5, "key"}, "remedy"};
    CHECK(*store->keep(failed, "", nullptr, at(1)) == 0);
  }
  auto store = Store::open(scratch.file());
  REQUIRE(store);
  CHECK(store->of_student("s-1")->size() == 1);
  auto all = store->all_worked();
  REQUIRE(all->size() == 2);
  const Worked& a = all->front();
  const Worked expected = worked("a");
  CHECK(a.limits == expected.limits);
  CHECK(a.style == expected.style);
  CHECK(a.stamp == "stamp");
  CHECK(a.inputs == "inputs");
  CHECK(a.taught == "taught");
  CHECK(a.shown == "shown");
  CHECK(a.summary == expected.summary);
  CHECK_FALSE(a.error);
  const auto& error = (*all)[1].error;
  REQUIRE(error);
  CHECK(error->fault == Fault::bad_value);
  CHECK(to_string(*error) == "b/x.json:3: frame 5: key: what (remedy)");
  CHECK(*store->checks_of("a") == std::string("\0\1", 2));
  CHECK(*store->checks_of("b") == "");

  CHECK(store->restamp("a", "other"));
  CHECK(store->all_worked()->front().stamp == "other");
  CHECK(store->begin("a"));
  CHECK(store->all_worked()->size() == 1);
  CHECK(*store->checks_of("a") == "");
  CHECK(store->of_student("s-1")->size() == 1);
}

TEST_CASE("ledger: forgetting takes what is known of a student, and what its caller names") {
  const Scratch scratch;
  auto store = Store::open(scratch.file());
  REQUIRE(store);
  const Record one = record("a", "2026-03-14", {});
  Worked others = worked("o"), unknown = worked("u");
  others.student = "s-2";
  unknown.student = "";
  CHECK(store->keep(worked("a"), "x", &one, at(1)));
  for (const auto& each : {others, unknown}) CHECK(store->keep(each, "", nullptr, at(1)));
  CHECK(*store->forget("s-1", {"u"}) == 1);
  REQUIRE(store->all_worked()->size() == 1);
  CHECK(store->all_worked()->front().submission == "o");
  CHECK(*store->checks_of("a") == "");
}

}  // namespace
}  // namespace rangecheck::history
