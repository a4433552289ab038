// SPDX-License-Identifier: MIT
#include "intake/frame_match.hpp"

#include "close.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;

namespace {

FrameCount counted(std::size_t first, std::size_t count, std::optional<double> rate_hz = {}) {
  FrameCount out{{}, {}, rate_hz};
  for (std::size_t i = 0; i < count; ++i) {
    out.numbers.push_back(first + i);
    out.times.push_back(std::nullopt);
  }
  return out;
}

FrameCount stamped(double start_s, double step_s, std::size_t count) {
  FrameCount out = counted(0, count);
  for (std::size_t i = 0; i < count; ++i) {
    out.times[i] = Duration::seconds(start_s + step_s * static_cast<double>(i));
  }
  return out;
}

}  // namespace

TEST_CASE("frames: the same numbers are the same frames") {
  const auto match = match_frames(counted(0, 100), counted(0, 100));
  REQUIRE(match);
  CHECK(match->by == FrameMatch::By::numbers);
  CHECK(match->matched() == 100);
  CHECK(match->other[41] == 41);
}

TEST_CASE("frames: as many counted from another number are laid one for one") {
  const auto match = match_frames(counted(0, 100), counted(1, 100));
  REQUIRE(match);
  CHECK(match->other[0] == 0);
  CHECK(match->other[99] == 99);
  const auto late = match_frames(counted(120, 50), counted(0, 50));
  REQUIRE(late);
  CHECK(late->other[0] == 0);
}

TEST_CASE("frames: a detector that leaves out frames keeps its numbers") {
  FrameCount found{{3, 4, 8}, {std::nullopt, std::nullopt, std::nullopt}, {}};
  const auto match = match_frames(counted(0, 10), found);
  REQUIRE(match);
  CHECK(match->matched() == 3);
  CHECK(match->other[4] == 1);
  CHECK_FALSE(match->other[5]);
  // Counted from 1: its last is one beyond the film's.
  found.numbers = {3, 4, 10};
  const auto from_one = match_frames(counted(0, 10), found);
  REQUIRE(from_one);
  CHECK(from_one->other[9] == 2);
  CHECK(from_one->other[2] == 0);
}

TEST_CASE("frames: stamps win, to the nearest within half a frame, with nothing in between") {
  // Half as many frames, 4 ms late: every second frame of the film has one.
  const auto match = match_frames(stamped(0, 1.0 / 60, 120), stamped(0.004, 1.0 / 30, 60));
  REQUIRE(match);
  CHECK(match->by == FrameMatch::By::stamps);
  CHECK(match->matched() == 60);
  CHECK(match->other[2] == 1);
  CHECK_FALSE(match->other[3]);
}

TEST_CASE("frames: stamps of two clocks are left for the numbers") {
  const auto match = match_frames(stamped(0, 1.0 / 30, 50), stamped(1.7e9, 1.0 / 30, 50));
  REQUIRE(match);
  CHECK(match->by == FrameMatch::By::numbers);
  CHECK(match->other[7] == 7);
}

TEST_CASE("frames: other counts are matched by both rates, or not at all") {
  const auto match = match_frames(counted(0, 60, 30.0), counted(0, 240, 120.0));
  REQUIRE(match);
  CHECK(match->by == FrameMatch::By::rates);
  CHECK(match->other[10] == 40);
  CHECK_FALSE(match_frames(counted(0, 60), counted(0, 240)));
  CHECK_FALSE(match_frames(counted(0, 60, 30.0), counted(0, 240)));
  CHECK_FALSE(match_frames(counted(0, 60, 30.0), counted(9000, 240, 30.0)));
}

TEST_CASE("frames: a time is a frame's by stamps, else by the rate") {
  CHECK(frame_at(stamped(0, 0.1, 20), Duration::seconds(0.52)) == 5);
  CHECK(frame_at(counted(0, 20, 10.0), Duration::seconds(1.26)) == 13);
  CHECK_FALSE(frame_at(counted(0, 20, 10.0), Duration::seconds(2.5)));
  CHECK_FALSE(frame_at(counted(0, 20), Duration::seconds(1)));
}
