// SPDX-License-Identifier: MIT
#include <cmath>
#include <limits>
#include <string>

#include "close.hpp"
#include "measure/measurement.hpp"
#include "said.hpp"

namespace rangecheck {
namespace {

using measure::Moment;
using measure::Timeline;

/// Moments read to ±0.5 frame (rectangular), each on its own.
Timeline read_in_frames(std::initializer_list<std::pair<Moment, double>> frames, double rate_hz) {
  Timeline out;
  out.time_s.resize(static_cast<Eigen::Index>(frames.size()));
  for (const auto& [moment, frame] : frames) {
    out.time_s[static_cast<Eigen::Index>(out.moments.size())] = frame / rate_hz;
    out.moments.push_back(moment);
  }
  const double u_s = 1 / std::sqrt(12.0) / rate_hz;
  const auto size = out.time_s.size();
  out.covariance = u_s * u_s * Eigen::MatrixXd::Identity(size, size);
  return out;
}

/// 24 and 8 frames at 30 Hz, the commonest tempo: Grober & Cholewicki 2006, arXiv physics/0611291.
Timeline three_to_one(double rate_hz) {
  const double frames = rate_hz / 30;
  return read_in_frames(
      {{Moment::address, 10 * frames}, {Moment::top, 34 * frames}, {Moment::impact, 42 * frames}},
      rate_hz);
}

measure::Measurement timed(std::string_view id, const Timeline& timeline) {
  for (const auto& each : measure::measure_times(timeline)) {
    if (each.rule->id == id) return each;
  }
  FAIL("no such rule about times");
  return {};
}

}  // namespace

TEST_CASE("tempo of events read to half a frame") {
  // u of the ratio: own arithmetic from ±0.5 frame, rectangular; the top is in both times. Counting
  // it as two independent readings would give 0.140 at 30 Hz.
  const auto slow = timed("tempo-ratio", three_to_one(30));
  REQUIRE(slow.value);
  CHECK_CLOSE(*slow.value, 3.0, 0.01);
  CHECK_CLOSE(slow.standard_uncertainty, 0.184, 1e-3);
  CHECK_FALSE(slow.not_seen);
  const auto fast = timed("tempo-ratio", three_to_one(240));
  CHECK_CLOSE(fast.standard_uncertainty, 0.023, 1e-3);
  CHECK_CLOSE(*fast.value, 3.000, 1e-3);
}

TEST_CASE("times of the swing, and what is known of them beforehand") {
  const auto back = timed("backswing-time", three_to_one(30));
  CHECK_CLOSE(*back.value, 0.8, 1e-9);
  CHECK_CLOSE(back.standard_uncertainty, std::sqrt(2 / 12.0) / 30, 1e-6);
  CHECK_FALSE(back.position);
  CHECK(back.prior_uncertainty == std::numeric_limits<double>::infinity());
  CHECK_CLOSE(*timed("downswing-time", three_to_one(30)).value, 8 / 30.0, 1e-9);
}

TEST_CASE("moments that are wrong together leave the time between them sure") {
  auto timeline = three_to_one(240);
  timeline.covariance.array() += 0.1 * 0.1;  // the clock's zero
  CHECK_CLOSE(timed("downswing-time", timeline).standard_uncertainty, std::sqrt(2 / 12.0) / 240,
              1e-6);
}

TEST_CASE("a tempo too coarse to judge asks for a faster film") {
  auto timeline = three_to_one(30);
  timeline.covariance *= 4;  // events to a whole frame
  const auto tempo = timed("tempo-ratio", timeline);
  CHECK(tempo.value);
  REQUIRE(tempo.not_seen);
  CHECK(tempo.not_seen->reason == "known only to within 0.38 either way, and 0.3 is needed");
  CHECK(in_english(tempo.not_seen->remedy).find("slow motion") != std::string::npos);
}

TEST_CASE("an absent moment gives the reason and remedy of the timeline") {
  auto timeline = read_in_frames({{Moment::address, 0}, {Moment::top, 24}}, 30);
  timeline.absent.push_back({Moment::impact, as_written("the film ends before impact"),
                             as_written("film on to the end")});
  const auto tempo = timed("tempo-ratio", timeline);
  CHECK_FALSE(tempo.value);
  REQUIRE(tempo.not_seen);
  CHECK(tempo.not_seen->reason == "the film ends before impact");
  CHECK(tempo.not_seen->remedy == "film on to the end");
  CHECK_FALSE(timed("backswing-time", timeline).not_seen);
  // Of the greatest speeds this timeline does not even say why.
  const auto order = timed("chest-after-pelvis", timeline);
  REQUIRE(order.not_seen);
  CHECK(order.not_seen->reason == "no film shows a moment that it needs");
  CHECK_FALSE(order.not_seen->remedy.empty());
}

TEST_CASE("the order of greatest speeds from the pelvis out") {
  const auto timeline = read_in_frames({{Moment::club_peak, 250},
                                        {Moment::arms_peak, 241},
                                        {Moment::chest_peak, 243},
                                        {Moment::pelvis_peak, 236}},
                                       240);
  CHECK_CLOSE(*timed("chest-after-pelvis", timeline).value, 7 / 240.0, 1e-9);
  CHECK_CLOSE(*timed("arms-after-chest", timeline).value, -2 / 240.0, 1e-9);
  CHECK_CLOSE(*timed("club-after-arms", timeline).value, 9 / 240.0, 1e-9);
  CHECK_FALSE(timed("arms-after-chest", timeline).not_seen);
}

TEST_CASE("a top and an impact that can't be told apart have no tempo") {
  const auto timeline =
      read_in_frames({{Moment::address, 0}, {Moment::top, 24}, {Moment::impact, 24}}, 30);
  const auto tempo = timed("tempo-ratio", timeline);
  CHECK_FALSE(tempo.value);
  REQUIRE(tempo.not_seen);
  CHECK(in_english(tempo.not_seen->remedy).find("slow motion") != std::string::npos);
}

}  // namespace rangecheck
