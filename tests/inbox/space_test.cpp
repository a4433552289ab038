// SPDX-License-Identifier: MIT
// A swing that a depth camera saw, from its landmark file to grade: there is no picture.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "generator/space_detector.hpp"
#include "generator/swing.hpp"
#include "night.hpp"
#include "report/report.hpp"
#include "said.hpp"

namespace rangecheck::inbox {
namespace {

/// "lead_big_toe" as a right-hander's file spells it: left_big_toe.
std::string anatomical(LandmarkId id) {
  if (id.side == Side::centre) return key_of(id);
  return (id.side == Side::lead ? "left_" : "right_") + std::string(key_of(id.joint));
}

/// A landmark file in the plain form with points in space only.
std::string plain_space(const samples::FilmedSwing& swing,
                        const std::vector<samples::DetectedFrame>& seen) {
  nlohmann::json frames = nlohmann::json::array();
  for (std::size_t i = 0; i < seen.size(); ++i) {
    nlohmann::json points = nlohmann::json::object();
    for (std::size_t k = 0; k < landmark_count; ++k) {
      const LandmarkId id = landmark_at(k);
      const auto& point = seen[i].space[id];
      if (point) points[anatomical(id)] = {point->at_m.x(), point->at_m.y(), point->at_m.z()};
    }
    frames.push_back(
        {{"frame", swing.number[i]},
         {"time", swing.time_s[i]},
         {"people", {{{"points", nlohmann::json::object()}, {"space", std::move(points)}}}}});
  }
  return nlohmann::json{{"format", "rangecheck-landmarks"},
                        {"version", 1},
                        {"space-source", "depth-camera"},
                        {"frames", std::move(frames)}}
      .dump();
}

const measure::Measurement& measured(const report::Graded& graded, std::string_view id,
                                     Position position) {
  const auto found = std::ranges::find_if(graded.measured, [&](const auto& each) {
    return each.rule->id == id && each.position == position;
  });
  REQUIRE(found != graded.measured.end());
  return *found;
}

}  // namespace

TEST_CASE("a swing in space only is found, measured and graded") {
  samples::SwingOptions options;
  options.base.views = {samples::View::face_on};
  const auto drawn = samples::draw_swing(30001, options);
  const auto& film = drawn.films.front();
  auto random = samples::Random::for_part(30001, 100);
  const auto seen =
      samples::detect_in_space(random, samples::SpaceKind::depth_camera, film.camera, film.truth);
  const Fixture fixture;
  fixture.write("inbox/depth/face-on.json", plain_space(film, seen));
  fixture.write("inbox/depth/submission.yaml",
                "student: s-0001\nclub: 7-iron\nswing: full\n"
                "golfer: { handedness: right, stature: 176 cm }\n"
                "views:\n  - { view: face-on, landmarks: face-on.json }\n");
  auto night = run_whole(fixture.job());
  REQUIRE(night);
  for (const auto& each : night->set_aside) FAIL_CHECK(to_string(each.error));
  REQUIRE(night->graded.size() == 1);
  const report::Graded& graded = night->graded.front();
  CHECK(graded.findings.empty());
  CHECK(graded.positions.size() >= 7);
  for (const auto& each : graded.positions) {
    CAPTURE(id_of(each.position));
    REQUIRE(film.event_s.has(each.position));
    CHECK(std::abs(each.time_s - *film.event_s[each.position]) < 3 * each.standard_uncertainty_s);
  }
  // A picture from the front shows no forward bend. This does, and sway since address with it.
  for (const Position position : {Position::address, Position::top, Position::impact}) {
    CAPTURE(id_of(position));
    CHECK_FALSE(measured(graded, "forward-bend", position).not_seen);
  }
  CHECK_FALSE(measured(graded, "pelvis-sway", Position::top).not_seen);
  CHECK(std::ranges::any_of(graded.agreement, [](const auto& each) {
    return each.source == "face-on film" && each.is_film;
  }));
  CHECK(graded.space_agreement.empty());
}

}  // namespace rangecheck::inbox
