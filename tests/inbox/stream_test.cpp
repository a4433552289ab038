// SPDX-License-Identifier: MIT
// Records of an inbox, graded from a pipe: line by line what the run over the folder makes.
#include "inbox/stream.hpp"

#include <doctest/doctest.h>
#include <fcntl.h>
#include <unistd.h>

#include <stdexcept>

#include "inbox/lines.hpp"
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
  std::map<std::string, std::string> lines;
  Job job = fixture.job();
  job.on_progress = [&](const Progress& progress) {
    lines[std::string(progress.submission)] =
        progress.graded ? report::result_json(*progress.graded, std::nullopt)
                        : report::set_aside_json(*progress.set_aside, std::nullopt);
  };
  REQUIRE(run(job));
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

TEST_CASE("lines: as they come, with their numbers, none longer than may be") {
  int ends[2];
  REQUIRE(::pipe(ends) == 0);
  Lines lines(ends[0], 5);
  const auto next = [&] {
    const auto line = lines.next();
    REQUIRE(line);
    REQUIRE(*line);
    return std::to_string((*line)->number) + ((*line)->too_long ? "!" : ":") + (*line)->text;
  };
  const auto put = [&](const std::string& text) {
    REQUIRE(::write(ends[1], text.data(), text.size()) == static_cast<ssize_t>(text.size()));
  };
  put("one\ntw");  // what is whole is there before the rest is
  CHECK(next() == "1:one");
  put("o\n\n \r\n12345\n123456\n" + std::string(60'000, 'x') + "\nlast");
  CHECK(next() == "2:two");
  CHECK(next() == "5:12345");
  CHECK(next() == "6!");
  CHECK(next() == "7!");
  ::close(ends[1]);
  CHECK(next() == "8:last");
  CHECK_FALSE(*lines.next());
  CHECK_FALSE(*lines.next());
  ::close(ends[0]);
}

TEST_CASE("stream: what is thrown by who takes ends it as an error, on whatever thread") {
  const Fixture fixture;
  fixture.write("records.jsonl", "1\n2\n3\n4\n");
  const int input = ::open((fixture.folder() / "records.jsonl").c_str(), O_RDONLY | O_CLOEXEC);
  const auto done = stream({fixture.job().profiles, std::nullopt, 3}, input,
                           [](const Streamed&) -> bool { throw std::runtime_error("no room"); });
  ::close(input);
  REQUIRE_FALSE(done);
  CHECK(done.error().what == "no room");
  CHECK(done.error().fault == Fault::io);
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
