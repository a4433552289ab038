// SPDX-License-Identifier: MIT
// Records of an inbox, graded from a pipe: line by line what the run over the folder makes.
#include "inbox/stream.hpp"

#include <doctest/doctest.h>
#include <fcntl.h>
#include <unistd.h>

#include <fstream>

#include "inbox/pack.hpp"
#include "night.hpp"

namespace rangecheck::inbox {
namespace {

std::vector<std::string> records_of(const Fixture& fixture) {
  std::vector<std::string> lines;
  REQUIRE(pack(fixture.folder() / "inbox", [&](const Packed& packed) {
    lines.push_back(packed.line);
    return true;
  }));
  return lines;
}

std::string line_of(const Streamed& streamed) {
  return streamed.outcome ? report::result_json(*streamed.outcome, std::nullopt)
                          : report::set_aside_json(streamed.outcome.error(), std::nullopt);
}

/// What becomes of `records`, until `most` have come.
std::vector<std::string> streamed(const Fixture& fixture, const std::string& records,
                                  unsigned workers = 2, std::size_t most = 1000) {
  fixture.write("records.jsonl", records);
  const int input = ::open((fixture.folder() / "records.jsonl").c_str(), O_RDONLY | O_CLOEXEC);
  REQUIRE(input >= 0);
  std::vector<std::string> lines;
  const Job job = fixture.job();
  const auto done = stream({job.profiles, job.roster, workers}, input, [&](const Streamed& each) {
    lines.push_back(line_of(each));
    return lines.size() < most;
  });
  ::close(input);
  REQUIRE(done);
  return lines;
}

std::string joined(const std::vector<std::string>& lines) {
  std::string all;
  for (const auto& line : lines) all += line;
  return all;
}

/// The lines of a run over the folder, by submission.
std::map<std::string, std::string> lines_of_folder(const Fixture& fixture) {
  const auto night = run(fixture.job());
  REQUIRE(night);
  std::map<std::string, std::string> lines;
  for (const auto& each : night->graded)
    lines[each.submission] = report::result_json(each, std::nullopt);
  for (const auto& each : night->set_aside)
    lines[each.submission] = report::set_aside_json(each, std::nullopt);
  return lines;
}

}  // namespace

TEST_CASE("stream: records give what the folder gives, earlier submissions included") {
  const Fixture fixture;
  fixture.add_of("s-0001", "c-first", "2026-03-14");
  fixture.add_of("s-0001", "a-second", "2026-03-20");
  fixture.add_of("s-0001", "b-third", "");  // arrives tonight
  fixture.add_of("s-0002", "other", "2026-03-16");
  fixture.add_broken("z-broken");
  const auto records = records_of(fixture);
  REQUIRE(records.size() == 5);
  const auto expected = lines_of_folder(fixture);
  std::vector<std::string> in_order;
  for (const auto& [id, line] : expected) in_order.push_back(line);
  CHECK(in_order[0].find(R"("since_last":{"submission":"c-first")") != std::string::npos);
  CHECK(in_order[1].find(R"("since_last":{"submission":"a-second")") != std::string::npos);
  CHECK(in_order[4].find("rangecheck-set-aside") != std::string::npos);
  CHECK(streamed(fixture, joined(records)) == in_order);
  CHECK(streamed(fixture, records[1], 1) == std::vector<std::string>{in_order[1]});
  // A student's submissions of another club are none of a record's business.
  CHECK(records[3].find("earlier") == std::string::npos);
}

TEST_CASE("stream: nobody who reads on is the end") {
  const Fixture fixture;
  fixture.add_good("a");
  const auto record = records_of(fixture).front();
  std::string many;
  for (int i = 0; i < 50; ++i) many += record;
  CHECK(streamed(fixture, many, 2, 3).size() == 3);
}

TEST_CASE("stream: an input that can't be read, and profiles that are none") {
  const Fixture fixture;
  const auto none = [](const Streamed&) { return true; };
  const auto unreadable = stream({fixture.job().profiles, std::nullopt, 1}, -1, none);
  REQUIRE_FALSE(unreadable);
  CHECK(unreadable.error().fault == Fault::io);
  CHECK(unreadable.error().what == "can't read standard input: Bad file descriptor");
  CHECK_FALSE(stream({fixture.folder() / "nowhere", std::nullopt, 1}, -1, none));
}

}  // namespace rangecheck::inbox
