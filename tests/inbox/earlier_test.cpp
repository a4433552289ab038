// SPDX-License-Identifier: MIT
// Which earlier submissions a page knows of.
#include <doctest/doctest.h>

#include <algorithm>
#include <thread>

#include "history/store.hpp"
#include "inbox/queues.hpp"
#include "night.hpp"

namespace rangecheck::inbox {
namespace {

namespace fs = std::filesystem;
using Ids = std::vector<std::string>;

/// The submissions that the page of `id` knows of, its own left out.
Ids earlier(const Whole& night, const std::string& id) {
  const auto found = std::ranges::find(night.graded, id, &report::Graded::submission);
  REQUIRE(found != night.graded.end());
  Ids ids;
  for (const auto& each : found->course.submissions) ids.push_back(each.record.submission);
  REQUIRE_FALSE(ids.empty());
  CHECK(ids.back() == id);
  ids.pop_back();
  return ids;
}

/// Two students; of one an order of times that is not that of ids, and one without a time.
void fill(const Fixture& fixture) {
  fixture.add_of("s-0001", "a", "2026-03-20");
  fixture.add_of("s-0001", "b", "2026-03-06T10:00:00+02:00");
  fixture.add_of("s-0001", "c", "2026-03-13");
  fixture.add_of("s-0001", "d", "");
  fixture.add_of("s-0002", "e", "2026-03-13");
  fixture.add_of("s-0002", "f", "2026-03-01");
}

void check_all(const Whole& night) {
  CHECK(earlier(night, "b") == Ids{});
  CHECK(earlier(night, "c") == Ids{"b"});
  CHECK(earlier(night, "a") == Ids{"b", "c"});
  CHECK(earlier(night, "d") == Ids{"b", "c", "a"});
  CHECK(earlier(night, "f") == Ids{});
  CHECK(earlier(night, "e") == Ids{"f"});
}

TEST_CASE("a page knows the student's earlier submissions, however many workers there are") {
  const Fixture fixture;
  fill(fixture);
  std::map<std::string, std::string> first;
  for (const unsigned workers : {1U, 2U, 8U}) {
    CAPTURE(workers);
    fs::remove_all(fixture.folder() / "out");
    const auto night = run_whole(fixture.job(workers));
    REQUIRE(night);
    check_all(*night);
    if (first.empty()) first = fixture.files("out");
    CHECK(fixture.files("out") == first);
    CHECK(first.at("students/a/report.txt").find("Since your films of 2026-03-13") !=
          std::string::npos);
    CHECK(first.at("students/a/page.html").find("2026-03-06: ") != std::string::npos);
    CHECK(first.at("students/b/report.txt").find("Since last time") == std::string::npos);
    // What is recorded by then changes nothing: neither own records nor those of later ones.
    const auto again = run_whole(fixture.job(workers));
    REQUIRE(again);
    check_all(*again);
    CHECK(fixture.files("out") == first);
  }
}

TEST_CASE("an older submission that comes in later is earlier all the same") {
  const Fixture fixture;
  fixture.add_of("s-0001", "new", "2026-03-20");
  REQUIRE(run(fixture.job()));
  fixture.add_of("s-0001", "old", "2026-03-06");
  const auto both = run_whole(fixture.job());
  REQUIRE(both);
  CHECK(earlier(*both, "old") == Ids{});
  CHECK(earlier(*both, "new") == Ids{"old"});
  const auto files = fixture.files("out");
  // The inbox is emptied after a night: what it held is known from the history.
  fs::remove_all(fixture.folder() / "inbox/old");
  const auto alone = run_whole(fixture.job());
  REQUIRE(alone);
  CHECK(earlier(*alone, "new") == Ids{"old"});
  for (const auto* file : {"report.txt", "page.html", "result.json"}) {
    const std::string path = std::string("students/new/") + file;
    CHECK(fixture.files("out").at(path) == files.at(path));
  }
  // A later record of the older one is still of the older one, and not of the newer.
  fs::remove_all(fixture.folder() / "inbox/new");
  fixture.add_of("s-0001", "old", "2026-03-07");
  const auto later = run_whole(fixture.job());
  REQUIRE(later);
  CHECK(earlier(*later, "old") == Ids{});
}

TEST_CASE("without a time the night counts, and the id within a night") {
  const Fixture fixture;
  fixture.add_good("m");
  REQUIRE(run(fixture.job()));
  std::this_thread::sleep_for(std::chrono::milliseconds(1100));
  for (const auto* id : {"z", "a"}) fixture.add_good(id);
  for (int i = 0; i < 2; ++i) {
    const auto night = run_whole(fixture.job(2));
    REQUIRE(night);
    CHECK(earlier(*night, "m") == Ids{});
    CHECK(earlier(*night, "a") == Ids{"m"});
    CHECK(earlier(*night, "z") == Ids{"m", "a"});
  }
}

TEST_CASE("another club is another story") {
  const Fixture fixture;
  fixture.add_of("s-0001", "a", "2026-03-06");
  fixture.add_of("s-0001", "b", "2026-03-13");
  const auto manifest = fixture.files("inbox").at("b/submission.yaml");
  const auto club = manifest.find("7-iron");
  fixture.write("inbox/b/submission.yaml", std::string(manifest).replace(club, 6, "driver"));
  const auto night = run_whole(fixture.job());
  REQUIRE(night);
  CHECK(earlier(*night, "b") == Ids{});
}

TEST_CASE("a submission that was filed under the wrong student is gone from that one's pages") {
  const Fixture fixture;
  fixture.add_of("s-0001", "a", "2026-03-06");
  fixture.add_of("s-0001", "b", "2026-03-13");
  auto night = run_whole(fixture.job());
  REQUIRE(night);
  CHECK(earlier(*night, "b") == Ids{"a"});
  fixture.add_of("s-0002", "a", "2026-03-06");
  std::map<std::string, std::string> first;
  for (const unsigned workers : {8U, 1U}) {
    night = run_whole(fixture.job(workers));
    REQUIRE(night);
    CHECK(earlier(*night, "b") == Ids{});
    if (first.empty()) first = fixture.files("out");
    CHECK(fixture.files("out") == first);
  }
}

TEST_CASE("a student's submissions are one queue, each of unknown ones has its own") {
  const Fixture fixture;
  fill(fixture);
  fixture.write("inbox/g/submission.yaml", "student: [");
  fixture.write("inbox/h/submission.yaml", "club: 7-iron");
  const auto locations = intake::find_submissions(fixture.folder() / "inbox");
  REQUIRE(locations);
  const auto store = history::Store::open(fixture.folder() / "history.sqlite");
  REQUIRE(store);
  Job job;
  job.inbox = fixture.folder() / "inbox";
  job.out = fixture.folder() / "out";
  const intake::Roster nobody;
  const auto naming = Naming::open(job, nobody, *locations, *store);
  REQUIRE(naming);
  std::vector<std::optional<intake::Sender>> senders;
  for (const auto& location : *locations) {
    const auto sender = intake::read_sender(location);
    senders.push_back(sender ? std::optional(*sender) : std::nullopt);
  }
  const auto queues = queues_of(*locations, senders, *naming, *store,
                                std::chrono::sys_days{std::chrono::days(30000)});
  REQUIRE(queues);
  std::vector<Ids> ids;
  for (const auto& queue : *queues) {
    ids.emplace_back();
    for (const auto& turn : queue) ids.back().push_back((*locations)[turn.location].id);
  }
  CHECK(ids == std::vector<Ids>{{"b", "c", "a", "d"}, {"f", "e"}, {"g"}, {"h"}});
}

}  // namespace
}  // namespace rangecheck::inbox
