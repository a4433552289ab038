// SPDX-License-Identifier: MIT
#include "measure/own_measure.hpp"

#include <string>

#include "close.hpp"
#include "measure/address.hpp"
#include "said.hpp"

namespace rangecheck {
namespace {

using namespace measure;

PointOf point(LandmarkId id) { return {{id}}; }
PointOf middle(Joint joint) { return {{lead(joint), trail(joint)}}; }
std::shared_ptr<const Primitive> shared(Primitive primitive) {
  return std::make_shared<const Primitive>(std::move(primitive));
}

OwnMeasureFacts facts(Primitive primitive, Position at = Position::address) {
  return {.id = "my-measure",
          .title = "My measure",
          .sign = "0 none, positive more",
          .origin = "measures.yaml:7",
          .region = Region::arms,
          .at = Positions::of(at),
          .seen_limit_si = {},
          .primitive = std::move(primitive)};
}

std::unique_ptr<const OwnMeasure> made(Primitive primitive, Position at = Position::address) {
  auto own = OwnMeasure::make(facts(std::move(primitive), at));
  if (!own) FAIL(own.error().what);
  return std::move(*own);
}

/// Value at `posture`'s mean, in deg, m or 1.
double value(const OwnMeasure& own, const posture::Posture& posture) {
  const auto found = evaluate(own.rule(), test::points_for(own.rule(), posture));
  REQUIRE(found);
  return test::in_example_unit(own.rule(), *found);
}

/// Value of the built-in rule there.
double built_in(std::string_view id, const posture::Posture& posture) {
  const Rule& rule = *find_rule(id);
  return test::in_example_unit(rule, *rule.measure(test::points_for(rule, posture)));
}

void refused(OwnMeasureFacts facts, std::string_view words) {
  const auto own = OwnMeasure::make(std::move(facts));
  REQUIRE_FALSE(own);
  CAPTURE(own.error().what);
  CHECK(own.error().what.find(words) != std::string::npos);
  CHECK(own.error().fault == Fault::bad_profile);
  CHECK_FALSE(own.error().remedy.empty());
}

const LineOf shoulder_line{point(trail(Joint::shoulder)), point(lead(Joint::shoulder))};
const LineOf toe_line{point(trail(Joint::big_toe)), point(lead(Joint::big_toe))};
const LineOf trunk{middle(Joint::hip), middle(Joint::shoulder)};
const LineOf hips_to_trail_foot{middle(Joint::hip), point(trail(Joint::ankle))};
const Primitive knee{AngleAtJoint{point(lead(Joint::hip)), point(lead(Joint::knee)),
                                  point(lead(Joint::ankle)), true}};
const Primitive heels{DistanceBetween{point(lead(Joint::heel)), point(trail(Joint::heel))}};

}  // namespace

TEST_CASE("primitives give what the built-in rules of the same definition give") {
  const auto posture = test::posture_at_address(0.004);
  CHECK_CLOSE(value(*made(knee), posture), built_in("lead-knee-flexion", posture), 1e-9);
  auto included = knee;
  std::get<AngleAtJoint>(included.kind).flexion = false;
  CHECK_CLOSE(value(*made(included), posture), 180 - built_in("lead-knee-flexion", posture), 1e-9);

  const auto line = made({LineAgainst{shoulder_line, Axis::target, Plane::ground}});
  CHECK_CLOSE(value(*line, posture), built_in("shoulder-line-to-target", posture), 1e-9);
  const auto against = made({LineAgainst{shoulder_line, toe_line, Plane::ground}});
  CHECK_CLOSE(value(*against, posture), built_in("shoulder-line-to-stance", posture), 1e-9);
  const auto side_bend = made({LineAgainst{trunk, Axis::up, Plane::front}});
  CHECK_CLOSE(value(*side_bend, posture), built_in("side-bend", posture), 1e-9);
  // From +Z to +Y is positive, so a bend toward the ball is negative against the vertical.
  const auto forward = made({LineAgainst{trunk, Axis::up, Plane::side}});
  CHECK_CLOSE(value(*forward, posture), -built_in("forward-bend", posture), 1e-9);

  const auto ahead = made({DistanceAlong{point(centre(Joint::ball)), middle(Joint::wrist)}});
  CHECK_CLOSE(value(*ahead, posture), built_in("hands-ahead-of-ball", posture), 1e-9);
  const auto hips = Primitive{DistanceBetween{point(lead(Joint::hip)), point(trail(Joint::hip))}};
  CHECK_CLOSE(value(*made({RatioOf{shared(heels), shared(hips)}}), posture),
              built_in("stance-width-to-hips", posture), 2e-3);  // heels differ in height a little
}

TEST_CASE("an angle in space is unsigned and reaches 180 deg") {
  const auto posture = test::posture_at_address(0.004);
  const auto own = made({LineAgainst{trunk, hips_to_trail_foot, Plane::space}});
  CHECK(own->rule().magnitude);
  const Point up = (*posture.point(lead(Joint::shoulder)) + *posture.point(trail(Joint::shoulder)) -
                    *posture.point(lead(Joint::hip)) - *posture.point(trail(Joint::hip)));
  const Point down = 2 * *posture.point(trail(Joint::ankle)) - *posture.point(lead(Joint::hip)) -
                     *posture.point(trail(Joint::hip));
  const double cosine = up.normalized().dot(down.normalized());
  CHECK_CLOSE(value(*own, posture), Angle::radians(std::acos(cosine)).in_degrees(), 1e-6);
}

TEST_CASE("a change compares with address, alone or in a ratio") {
  const auto top = test::posture_at_top(0.004);
  const auto change = made({ChangeOf{shared(knee)}}, Position::top);
  CHECK(change->rule().address_needs.size() == 3);
  CHECK_FALSE(change->rule().magnitude);
  CHECK_CLOSE(value(*change, top), built_in("lead-knee-flexion-change", top), 1e-9);

  // Sway over the width of the stance now.
  const Primitive along{DistanceAlong{point(lead(Joint::ankle)), middle(Joint::hip), Axis::target}};
  const auto sway =
      made({RatioOf{shared({ChangeOf{shared(along)}}), shared(heels)}}, Position::top);
  CHECK(sway->rule().dimension == Dimension::ratio);
  CHECK(sway->rule().needs.size() == 5);
  CHECK(sway->rule().address_needs.size() == 3);
  CHECK_CLOSE(value(*sway, top), -0.015 / std::hypot(0.38, 0.0, 0.01), 1e-9);
}

TEST_CASE("a coach's own measure is measured like any other, after the catalogue") {
  const auto own = made({ChangeOf{shared(knee)}}, Position::top);
  const Rule* const rules[] = {&own->rule()};
  const auto posture = test::posture_at_top(0.004);
  const auto all = measure_all(posture, Position::top, rules);
  REQUIRE(all.back().rule == &own->rule());
  CHECK(all.back().position == Position::top);
  CHECK_FALSE(all.back().not_seen);
  const auto same = measure::measure(*find_rule("lead-knee-flexion-change"), posture);
  CHECK_CLOSE(*all.back().value, *same.value, 1e-9);
  CHECK_CLOSE(all.back().standard_uncertainty, same.standard_uncertainty, 1e-9);
  CHECK(measure_all(test::posture_at_address(0.004), Position::address, rules).back().rule !=
        &own->rule());

  auto hidden = posture;
  std::erase(hidden.evidenced, lead(Joint::ankle));
  const auto unseen = measure::measure(own->rule(), hidden);
  REQUIRE(unseen.not_seen);
  CHECK(unseen.not_seen->reason == "nothing shows the lead ankle");
}

TEST_CASE("coincident points give a number or nothing, never NaN") {
  for (const auto& primitive :
       {knee, heels, Primitive{LineAgainst{trunk, Axis::up, Plane::side}},
        Primitive{LineAgainst{trunk, toe_line, Plane::space}},
        Primitive{RatioOf{shared(heels), shared(heels)}},
        Primitive{DistanceAlong{point(lead(Joint::heel)), point(lead(Joint::knee)), Axis::up}}}) {
    const auto own = made(primitive);
    const std::vector<Point> heap(own->rule().needs.size(), Point(0.1, 0.9, 0.2));
    const auto found = evaluate(own->rule(), heap);
    CHECK((!found || std::isfinite(*found)));
    if (own->rule().dimension == Dimension::angle) CHECK_FALSE(found);
  }
}

TEST_CASE("what a coach leaves out has a usual value, and the origin is kept") {
  const auto own = made(knee);
  const Rule& rule = own->rule();
  CHECK(rule.id == "my-measure");
  CHECK(rule.title == "My measure");
  CHECK(rule.sign == "0 none, positive more");
  CHECK(rule.region == Region::arms);
  CHECK(rule.source == "the coach's own, measures.yaml:7");
  CHECK(own->origin() == "measures.yaml:7");
  CHECK(rule.examples.empty());
  CHECK_FALSE(rule.limit.empty());
  CHECK(rule.magnitude);
  CHECK_CLOSE(rule.seen_limit_si, Angle::degrees(6).in_radians(), 1e-12);
  CHECK_CLOSE(made(heels)->rule().seen_limit_si, 0.0381, 1e-12);
  CHECK_CLOSE(made({RatioOf{shared(heels), shared(heels)}})->rule().seen_limit_si, 0.1, 1e-12);
  auto given = facts(heels);
  given.seen_limit_si = 0.02;
  CHECK_CLOSE((*OwnMeasure::make(given))->rule().seen_limit_si, 0.02, 1e-12);
}

TEST_CASE("a measure that makes no sense is refused with words and a remedy") {
  const auto with = [](auto&& edit) {
    auto out = facts(knee);
    edit(out);
    return out;
  };
  refused(with([](auto& f) { f.id = "My Measure"; }), "can't be the name");
  refused(with([](auto& f) { f.id = ""; }), "can't be the name");
  refused(with([](auto& f) { f.id = "stance-width"; }), "built in");
  refused(with([](auto& f) { f.title = " "; }), "no title");
  refused(with([](auto& f) { f.sign = ""; }), "what 0 and a positive value mean");
  refused(with([](auto& f) { f.at = {}; }), "nowhere");
  refused(with([](auto& f) { f.seen_limit_si = 0; }), "limit");

  refused(facts({RatioOf{shared(knee), shared(heels)}}), "not a length");
  refused(facts({RatioOf{shared(heels), nullptr}}), "missing");
  refused(facts({ChangeOf{shared({ChangeOf{shared(knee)}})}}, Position::top), "of a change");
  refused(facts({ChangeOf{shared(knee)}}), "nil at address");
  refused(facts({DistanceBetween{middle(Joint::hip), middle(Joint::hip)}}), "both ends");
  refused(facts({DistanceBetween{{}, middle(Joint::hip)}}), "no landmark");
  refused(facts({DistanceBetween{{{lead(Joint::hip), lead(Joint::hip)}}, middle(Joint::knee)}}),
          "lead hip twice");
  refused(facts({AngleAtJoint{point(lead(Joint::hip)), point(lead(Joint::hip)),
                              point(lead(Joint::ankle))}}),
          "both ends");
  refused(facts({LineAgainst{trunk, trunk, Plane::ground}}), "itself");
  refused(facts({LineAgainst{trunk, Axis::up, Plane::ground}}), "no direction");
  refused(facts({LineAgainst{trunk, Axis::ball, Plane::front}}), "no direction");
  refused(facts({LineAgainst{trunk, Axis::target, Plane::side}}), "no direction");
}

}  // namespace rangecheck
