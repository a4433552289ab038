// SPDX-License-Identifier: MIT
// What must hold for every rule there is and every rule to come.
#include <limits>
#include <set>
#include <string>

#include "base/text.hpp"
#include "close.hpp"
#include "measure/address.hpp"
#include "said.hpp"

namespace rangecheck {
namespace {

using measure::catalogue;
using measure::find_rule;
using measure::Rule;
using measure::WorkedExample;
using posture::Point;

std::vector<Point> points_of(const WorkedExample& example) {
  std::vector<Point> out;
  for (const auto& at : example.points) out.emplace_back(at.x, at.y, at.z);
  return out;
}

/// Value of an example with the golfer standing elsewhere, in the example's unit.
std::optional<double> value_of(const Rule& rule, const WorkedExample& example,
                               const Point& move = Point::Zero()) {
  if (rule.is_timing()) return rule.measure_times(example.times_s);
  auto points = points_of(example);
  for (auto& point : points) point += move;
  const auto value = rule.measure(points);
  if (!value) return std::nullopt;
  return test::in_example_unit(rule, *value);
}

std::string text(std::string_view view) { return std::string(view); }

}  // namespace

TEST_CASE("every worked example holds, wherever on the range the golfer stands") {
  const Point moves[] = {{0, 0, 0}, {3, 0, 0}, {0, 0, -2}, {-1.5, 0, 40}};
  for (const Rule* rule : catalogue()) {
    for (const auto& example : rule->examples) {
      CAPTURE(text(rule->id));
      CAPTURE(text(example.source));
      REQUIRE(example.points.size() == rule->needs.size() + rule->address_needs.size());
      REQUIRE(example.times_s.size() == rule->moments.size());
      for (const Point& move : moves) {
        const auto value = value_of(*rule, example, move);
        REQUIRE(value);
        CHECK_CLOSE(*value, example.expected, example.within + 1e-9);
      }
    }
  }
}

TEST_CASE("a rule about times does not ask when the film began") {
  for (const Rule* rule : catalogue()) {
    if (!rule->is_timing()) continue;
    for (const auto& example : rule->examples) {
      CAPTURE(text(rule->id));
      std::vector<double> later(example.times_s.begin(), example.times_s.end());
      for (double& time_s : later) time_s += 12.5;
      const auto value = rule->measure_times(later);
      REQUIRE(value);
      CHECK_CLOSE(*value, example.expected, example.within + 1e-9);
    }
  }
}

TEST_CASE("lead and trail forms of a rule are mirror images") {
  int pairs = 0;
  for (const Rule* rule : catalogue()) {
    const std::string id = text(rule->id);
    const Rule* other = id.starts_with("lead-") ? find_rule("trail-" + id.substr(5)) : nullptr;
    if (other == nullptr) continue;
    ++pairs;
    CAPTURE(id);
    REQUIRE(other->needs.size() == rule->needs.size());
    for (std::size_t i = 0; i < rule->needs.size(); ++i) {
      CHECK(other->needs[i] == mirrored(rule->needs[i]));
    }
    CHECK(other->at == rule->at);
    REQUIRE(other->address_needs.size() == rule->address_needs.size());
    for (std::size_t i = 0; i < rule->address_needs.size(); ++i) {
      CHECK(other->address_needs[i] == mirrored(rule->address_needs[i]));
    }
    for (const auto& example : rule->examples) {
      auto points = points_of(example);
      for (auto& point : points) point.x() = -point.x();
      const auto value = other->measure(points);
      REQUIRE(value);
      CHECK_CLOSE(test::in_example_unit(*other, *value), example.expected, example.within);
    }
  }
  CHECK(pairs == 8);  // flare, knee flexion and its change, over foot, inset, elbow, wrist, palm
}

TEST_CASE("with any needed landmark missing a rule is not seen and says which") {
  const auto whole = test::posture_at_top(0.005);
  for (const Rule* rule : catalogue()) {
    for (const LandmarkId id : rule->needs) {
      CAPTURE(text(rule->id));
      auto without = whole;
      without.landmarks[*whole.find(id)] = centre(Joint::head_top);  // which no rule needs
      const auto measured = measure::measure(*rule, without);
      CHECK_FALSE(measured.value);
      REQUIRE(measured.not_seen);
      CHECK(in_english(measured.not_seen->reason).find(name_of(id)) != std::string::npos);
      CHECK(in_english(measured.not_seen->reason).find("address") == std::string::npos);
      CHECK_FALSE(measured.not_seen->remedy.empty());
    }
    for (const LandmarkId id : rule->address_needs) {
      CAPTURE(text(rule->id));
      auto without = whole;
      *std::ranges::find(without.address_landmarks, id) = centre(Joint::head_top);
      const auto measured = measure::measure(*rule, without);
      CHECK_FALSE(measured.value);
      REQUIRE(measured.not_seen);
      CHECK(measured.not_seen->reason == "nothing shows the " + name_of(id) + " at address");
      CHECK_FALSE(measured.not_seen->remedy.empty());
    }
  }
}

TEST_CASE("all landmarks on one point give a number or nothing, never NaN") {
  for (const Rule* rule : catalogue()) {
    if (rule->is_timing()) continue;
    CAPTURE(text(rule->id));
    const std::vector<Point> heap(rule->needs.size() + rule->address_needs.size(),
                                  Point(0.1, 0.9, 0.2));
    const auto value = rule->measure(heap);
    CHECK((!value || std::isfinite(*value)));
    if (rule->dimension == Dimension::angle) CHECK_FALSE(value);

    auto posture = test::posture_at_top(0.005);
    for (Eigen::Index i = 0; i < posture.mean.size(); ++i) posture.mean[i] = 0.3;
    const auto measured = measure::measure(*rule, posture);
    CHECK((!measured.value || std::isfinite(*measured.value)));
    CHECK(std::isfinite(measured.standard_uncertainty));
    if (!value) CHECK(measured.not_seen);
  }
}

TEST_CASE("all moments at once give a number or nothing, never NaN") {
  for (const Rule* rule : catalogue()) {
    if (!rule->is_timing()) continue;
    CAPTURE(text(rule->id));
    const std::vector<double> heap(rule->moments.size(), 2.5);
    const auto value = rule->measure_times(heap);
    CHECK((!value || std::isfinite(*value)));
  }
}

TEST_CASE("a change since address is nil at address") {
  const auto posture = test::posture_at_address(0.005);
  int changes = 0;
  for (const Rule* rule : catalogue()) {
    if (rule->address_needs.empty()) continue;
    ++changes;
    CAPTURE(text(rule->id));
    CHECK_FALSE(rule->at.has(Position::address));
    const auto measured = measure::measure(*rule, posture);
    REQUIRE(measured.value);
    CHECK_CLOSE(*measured.value, 0, 1e-12);
    CHECK_CLOSE(measured.standard_uncertainty, 0, 1e-12);
  }
  CHECK(changes == 16);
}

TEST_CASE("the catalogue is whole") {
  std::set<std::string> ids;
  auto region = measure::Region::feet;
  for (const Rule* rule : catalogue()) {
    CAPTURE(text(rule->id));
    CHECK(ids.insert(text(rule->id)).second);
    CHECK(kebab(rule->id) == rule->id);
    CHECK(find_rule(rule->id) == rule);
    CHECK(rule->region >= region);  // from the ground up
    region = rule->region;
    CHECK_FALSE(measure::name_of(rule->region).empty());
    for (const auto& words : {rule->title, rule->sign, rule->limit, rule->source}) {
      CHECK_FALSE(words.empty());
    }
    CHECK(rule->title.find("address") == std::string_view::npos);  // it is measured elsewhere too
    CHECK(rule->seen_limit_si > 0);
    CHECK_FALSE(rule->examples.empty());
    CHECK((rule->primitive == nullptr));
    CHECK((rule->measure == nullptr) == rule->is_timing());
    CHECK((rule->measure_times != nullptr) == rule->is_timing());
    CHECK(rule->needs.empty() == rule->is_timing());
    CHECK((rule->at == Positions()) == rule->is_timing());
    CHECK((rule->region == measure::Region::timing) == rule->is_timing());
    std::set<std::size_t> needed;
    for (const LandmarkId id : rule->needs) CHECK(needed.insert(index_of(id)).second);
    std::set<std::size_t> compared;
    for (const LandmarkId id : rule->address_needs) {
      CHECK(compared.insert(index_of(id)).second);
      CHECK(needed.contains(index_of(id)));
    }
    const std::set<measure::Moment> moments(rule->moments.begin(), rule->moments.end());
    CHECK(moments.size() == rule->moments.size());
  }
  CHECK(ids.size() >= 75);
  CHECK(find_rule("no-such-rule") == nullptr);
}

TEST_CASE("categories are in order and the first takes everything below") {
  for (const Rule* rule : catalogue()) {
    CAPTURE(text(rule->id));
    if (rule->categories.empty()) continue;
    CHECK(rule->categories.front().from_si == -std::numeric_limits<double>::infinity());
    CHECK(std::ranges::is_sorted(rule->categories, {}, &measure::Category::from_si));
  }
}

}  // namespace rangecheck
