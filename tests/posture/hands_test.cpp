// SPDX-License-Identifier: MIT
// Grip measures from 21 points a hand, against the true hands of made-up golfers.
#include <algorithm>
#include <map>

#include "close.hpp"
#include "posture/population.hpp"
#include "said.hpp"

namespace rangecheck {
namespace {

using samples::GripKind;

constexpr int golfers = test::many_golfers ? 90 : 9;
constexpr GripKind kinds[] = {GripKind::weak, GripKind::neutral, GripKind::strong};
const char* const grip_measures[] = {"lead-palm-turn", "trail-palm-turn", "lead-thumb-side",
                                     "hand-spacing"};

samples::Drawn drawn(std::uint64_t seed) {
  samples::Options options = test::options_for(seed, test::Films::both);
  options.grip = kinds[seed % std::size(kinds)];
  options.detector.hands = true;
  options.detector.club = true;
  return samples::draw(seed, options);
}

double truth(const std::string& id, const samples::Points& points) {
  const measure::Rule& rule = *measure::find_rule(id);
  return test::displayed(rule, test::truth_of(rule, points).value());
}

}  // namespace

TEST_CASE("hand points of two films: the interval holds the grip, which is not called seen") {
  std::map<std::string, int> covered;
  for (std::uint64_t seed = 1; seed <= golfers; ++seed) {
    const samples::Drawn golfer = drawn(seed);
    const auto posture = posture::estimate_address(test::evidence_of(golfer, seed));
    REQUIRE(posture);
    for (const std::string id : grip_measures) {
      CAPTURE(id);
      const measure::Rule& rule = *measure::find_rule(id);
      const auto measured = measure::measure(rule, *posture);
      REQUIRE(measured.value);
      const double true_si = test::truth_of(rule, golfer.golfer.points).value();
      covered[id] +=
          std::abs(test::error_of(measured, true_si)) <= 1.96 * measured.standard_uncertainty;
      // No verdict, so no wrong one: half an inch a point tells no grip from another.
      REQUIRE(measured.not_seen);
      CHECK(in_english(measured.not_seen->remedy).find("observed (" + id + ")") !=
            std::string::npos);
    }
  }
  if (!test::many_golfers) return;
  int all = 0;
  for (const std::string id : grip_measures) {
    CAPTURE(id);
    all += covered[id];
    CHECK(covered[id] >= 0.86 * golfers);  // 0.95 less three standard deviations of 90 golfers
  }
  CHECK(all >= 0.90 * 4 * golfers);
}

TEST_CASE("a strong grip turns the lead palm down, the trail palm up and the thumb over the top") {
  std::map<GripKind, std::map<std::string, double>> mean;
  constexpr int each = 30;
  for (const GripKind kind : kinds) {
    for (std::uint64_t seed = 1; seed <= each; ++seed) {
      samples::Options options;
      options.views = {samples::View::face_on};
      options.grip = kind;
      const samples::Points points = samples::draw(seed, options).golfer.points;
      for (const std::string id : grip_measures) mean[kind][id] += truth(id, points) / each;
    }
  }
  const auto gain = [&](const std::string& id) {
    return mean[GripKind::strong][id] - mean[GripKind::weak][id];
  };
  // 30 degrees more about the shaft, which slants across the hand: some 20 about the hand's length.
  CHECK_CLOSE(gain("lead-palm-turn"), 22, 8);
  CHECK_CLOSE(gain("trail-palm-turn"), -16, 8);
  CHECK_CLOSE(gain("lead-thumb-side"), 0.25, 0.1);
  CHECK_CLOSE(gain("hand-spacing"), 0, 0.15);
}

}  // namespace rangecheck
