// SPDX-License-Identifier: MIT
#include "measure/measurement.hpp"

#include <string>

#include "close.hpp"
#include "measure/address.hpp"
#include "said.hpp"

namespace rangecheck {
namespace {

using posture::Observation;

measure::Measurement measured(std::string_view id, const posture::Posture& posture) {
  return measure::measure(*measure::find_rule(id), posture);
}

bool mentions(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

/// The posture with every uncertainty `factor` times as wide, prior knowledge left as it is.
posture::Posture widened(posture::Posture posture, double factor) {
  posture.covariance *= factor * factor;
  return posture;
}

/// What would remain were `observation` added: every uncertainty `factor` times as wide as now.
void could_add(posture::Posture& posture, Observation observation, double factor) {
  posture.missing.push_back(observation);
  posture.covariance_with.push_back(factor * factor * posture.covariance);
}

}  // namespace

TEST_CASE("what good evidence shows is seen, with value and uncertainty") {
  const auto posture = test::posture_at_address(0.005);
  const auto width = measured("stance-width", posture);
  CHECK_FALSE(width.not_seen);
  REQUIRE(width.value);
  CHECK_CLOSE(*width.value, 0.38, 1e-3);
  CHECK_CLOSE(width.standard_uncertainty, 0.005 * std::sqrt(2.0), 1e-4);
  CHECK_CLOSE(width.prior_uncertainty, 0.05 * std::sqrt(2.0), 1e-2);
}

TEST_CASE("all rules of a position are measured in the catalogue's order") {
  for (const auto& [position, posture] :
       {std::pair{Position::address, test::posture_at_address(0.002)},
        std::pair{Position::top, test::posture_at_top(0.002)}}) {
    const auto all = measure::measure_all(posture, position);
    std::size_t next = 0;
    for (const measure::Rule* rule : measure::catalogue()) {
      if (rule->is_timing() || !rule->at.has(position)) continue;
      CAPTURE(std::string(rule->id));
      REQUIRE(next < all.size());
      CHECK(all[next].rule == rule);
      CHECK(all[next].position == position);
      CHECK_FALSE(all[next].not_seen);
      ++next;
    }
    CHECK(all.size() == next);
    CHECK(next >= 25);
  }
}

TEST_CASE("too wide is not seen, and the remedy is what would narrow it most") {
  auto posture = widened(test::posture_at_address(0.005), 8);
  posture.prior_covariance *= 100;
  could_add(posture, Observation::stature, 0.9);
  could_add(posture, Observation::down_the_line_film, 0.2);
  could_add(posture, Observation::target_stick, 0.6);
  const auto line = measured("shoulder-line-to-target", posture);
  REQUIRE(line.not_seen);
  CHECK(line.value);  // wide, for those who look closer
  CHECK(mentions(in_english(line.not_seen->reason), "6 deg is needed"));
  CHECK(line.not_seen->remedy == posture::advice(Observation::down_the_line_film));
}

TEST_CASE("a remedy that is not enough says so") {
  auto posture = widened(test::posture_at_address(0.005), 8);
  posture.prior_covariance *= 100;
  could_add(posture, Observation::stature, 0.8);
  const auto remedy = in_english(measured("shoulder-line-to-target", posture).not_seen->remedy);
  CHECK(mentions(remedy, "no single thing"));
  CHECK(mentions(remedy, in_english(posture::advice(Observation::stature))));

  posture.missing.clear();
  posture.covariance_with.clear();
  could_add(posture, Observation::stature, 0.95);  // hardly narrower: not worth asking for
  CHECK(mentions(in_english(measured("shoulder-line-to-target", posture).not_seen->remedy),
                 "no further film or fact"));
}

TEST_CASE("a value that any golfer would have is not seen, however narrow") {
  auto posture = test::posture_at_address(0.005);
  posture.prior_covariance = 2 * posture.covariance;
  const auto width = measured("stance-width", posture);
  REQUIRE(width.not_seen);
  CHECK(mentions(in_english(width.not_seen->reason), "any golfer"));
}

TEST_CASE("a point that nothing showed is not seen, and is named") {
  auto posture = test::posture_at_address(0.005);
  std::erase(posture.evidenced, trail(Joint::heel));
  const auto width = measured("stance-width", posture);
  REQUIRE(width.not_seen);
  CHECK(mentions(in_english(width.not_seen->reason), "trail heel"));
  CHECK_FALSE(mentions(in_english(width.not_seen->reason), "lead heel"));
  CHECK(mentions(in_english(width.not_seen->remedy), "trail heel"));
  could_add(posture, Observation::face_on_film, 0.9);
  CHECK(measured("stance-width", posture).not_seen->remedy ==
        posture::advice(Observation::face_on_film));
}

TEST_CASE("what no body film shows says what to add") {
  auto posture = test::posture_at_address(0.005);
  const auto remedy_without = [&posture](LandmarkId id, std::string_view rule) {
    auto without = posture;
    without.landmarks[*posture.find(id)] = centre(Joint::head_top);  // which no rule needs
    return in_english(measured(rule, without).not_seen->remedy);
  };
  CHECK(mentions(remedy_without(centre(Joint::ball), "ball-position"), "mark the ball"));
  CHECK(mentions(remedy_without(centre(Joint::hosel), "shaft-lean"), "whole club"));
  CHECK(mentions(remedy_without(lead(Joint::index_1), "lead-palm-turn"), "hands close"));
  CHECK(mentions(remedy_without(centre(Joint::mid_spine), "spine-curve"), "mid spine"));
}

TEST_CASE("correlated points: a body that is only shifted keeps its lengths and lines") {
  auto posture = test::posture_at_address(0.005);
  for (Eigen::Index i = 0; i < posture.mean.size(); ++i) {
    for (Eigen::Index j = i % 3; j < posture.mean.size(); j += 3) {
      posture.covariance(i, j) += 0.1 * 0.1;  // every point off by the same 10 cm along each axis
    }
  }
  const auto width = measured("stance-width", posture);
  CHECK_CLOSE(width.standard_uncertainty, 0.005 * std::sqrt(2.0), 1e-4);
  const auto height = measured("hand-height", posture);
  CHECK_CLOSE(height.standard_uncertainty, std::hypot(0.1, 0.005 / std::sqrt(2.0)), 1e-4);
}

TEST_CASE("an unsigned angle is never taken below straight") {
  auto posture = test::posture_at_address(0.03);
  posture.mean.segment<3>(3 * static_cast<Eigen::Index>(*posture.find(lead(Joint::elbow)))) =
      (*posture.point(lead(Joint::shoulder)) + *posture.point(lead(Joint::wrist))) / 2;
  const auto elbow = measured("lead-elbow-flexion", posture);
  REQUIRE(elbow.value);
  CHECK(*elbow.value >= 0);
  CHECK(elbow.standard_uncertainty > 0);
}

}  // namespace rangecheck
