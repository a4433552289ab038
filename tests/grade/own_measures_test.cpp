// SPDX-License-Identifier: MIT
// measures.yaml: a coach's own measures, from the file to a grade.
#include "close.hpp"
#include "folder.hpp"
#include "grade/grade.hpp"

using namespace rangecheck;
using namespace rangecheck::grade;

namespace {

double radians(double degrees) { return Angle::degrees(degrees).in_radians(); }
double inches(double value) { return Length::inches(value).in_metres(); }

/// A measure called `mine`, four lines of what it has beside its primitive, which starts on line 8.
const std::string facts =
    "version: 1\nmeasures:\n  mine:\n"
    "    title: Mine\n    region: hands\n    at: [top, p7]\n    sign: positive up\n";

std::string complaint(const std::string& file) {
  const Folder folder;
  folder.write("measures.yaml", file);
  return folder.complaint();
}

/// The rule of `mine` when its primitive is written so. `set` keeps it alive.
const measure::Rule& rule_of(const std::string& primitive, ProfileSet& set) {
  const Folder folder;
  folder.write("measures.yaml", facts + primitive);
  set = folder.loaded();
  REQUIRE(set.own_measures.size() == 1);
  return set.own_measures[0]->rule();
}

using measure::Point;

/// Value of `primitive` for these points, in the order in which the measure first names them, and
/// again at address where it looks back.
double value_of(const std::string& primitive, const std::vector<Point>& points) {
  ProfileSet set;
  const auto& rule = rule_of(primitive, set);
  REQUIRE(rule.needs.size() + rule.address_needs.size() == points.size());
  const auto value = measure::evaluate(rule, points);
  REQUIRE(value);
  return *value;
}

}  // namespace

TEST_CASE("own measures: everything that one can say") {
  ProfileSet set;
  const auto& rule = rule_of(
      "    seen-within: 2 in\n"
      "    distance: { from: trail hip, to: [lead wrist, Trail_wrist], along: ball }\n",
      set);
  CHECK(rule.id == "mine");
  CHECK(rule.title == "Mine");
  CHECK(rule.region == measure::Region::hands);
  CHECK(rule.sign == "positive up");
  CHECK(rule.dimension == Dimension::length);
  CHECK(rule.at == Positions::of(Position::top, Position::impact));
  CHECK_CLOSE(rule.seen_limit_si, inches(2), 1e-12);
  REQUIRE(rule.needs.size() == 3);
  CHECK(rule.needs[0] == trail(Joint::hip));
  CHECK(rule.needs[1] == lead(Joint::wrist));
  CHECK(rule.needs[2] == trail(Joint::wrist));
  CHECK(set.own_measures[0]->origin() == "measures.yaml:3");
}

TEST_CASE("own measures: each primitive, values worked out by hand") {
  const std::string joint =
      "    angle-at-joint: { first: lead hip, joint: lead knee, second: lead ankle";
  const std::vector<Point> square = {{0, 1, 0}, {0, 0.5, 0}, {0.5, 0.5, 0}};
  CHECK_CLOSE(value_of(joint + " }\n", square), radians(90), 1e-12);
  const std::vector<Point> bent = {{0, 1, 0}, {0, 0.5, 0}, {0.3, 0.2, 0}};
  CHECK_CLOSE(value_of(joint + ", as: flexion }\n", bent), radians(45), 1e-12);
  CHECK_CLOSE(value_of(joint + ", as: included }\n", bent), radians(135), 1e-12);

  const std::string line = "    line-against: { line: [trail hip, lead hip], ";
  CHECK_CLOSE(value_of(line + "against: target, in: ground }\n", {{0, 1, 0}, {0.3, 1, -0.3}}),
              radians(45), 1e-12);
  CHECK_CLOSE(value_of(line + "against: target, in: front }\n", {{0, 1, 0}, {0.3, 1.3, 0}}),
              radians(45), 1e-12);
  CHECK_CLOSE(value_of(line + "against: ball, in: side }\n", {{0, 1, 0}, {0, 1.3, 0.3}}),
              radians(45), 1e-12);
  CHECK_CLOSE(value_of(line + "against: up, in: space }\n", {{0, 1, 0}, {0.3, 1, 0}}), radians(90),
              1e-12);
  CHECK_CLOSE(value_of(line + "against: [trail shoulder, lead shoulder], in: ground }\n",
                       {{0, 1, 0}, {0.3, 1, -0.3}, {0, 1.4, 0}, {0.3, 1.4, 0}}),
              radians(45), 1e-12);

  CHECK_CLOSE(value_of("    distance: { from: ball, to: nose }\n", {{0, 0, 0}, {0.3, 0, 0.4}}), 0.5,
              1e-12);
  CHECK_CLOSE(value_of("    distance: { from: ball, to: nose, along: target }\n",
                       {{0, 0, 0}, {-0.3, 0, 0.4}}),
              -0.3, 1e-12);
  CHECK_CLOSE(
      value_of("    ratio:\n"
               "      over: { distance: { from: lead heel, to: trail heel } }\n"
               "      under: { distance: { from: lead hip, to: trail hip, along: target } }\n",
               {{0, 0, 0}, {-0.6, 0, 0}, {0.1, 1, 0}, {-0.1, 1, 0.2}}),
      -3, 1e-12);
  CHECK_CLOSE(value_of("    change: { of: { distance: { from: ball, to: nose, along: up } } }\n",
                       {{0, 0, 0}, {0, 1.5, 0}, {0, 0, 0}, {0, 1.6, 0}}),
              -0.1, 1e-12);
}

TEST_CASE("own measures: a profile uses one like any other, and grade finds its value") {
  const Folder folder;
  folder.write("measures.yaml",
               facts + "    distance: { from: trail hip, to: lead wrist, along: ball }\n");
  folder.write("iron.yaml",
               head +
                   "positions:\n  top:\n"
                   "    mine: { target: -2..2 in, fade: 2 in }\n"
                   "    shoulder-turn: { target: 80..100 deg, fade: 9 deg, drives: mine }\n");
  const auto set = folder.loaded();
  const auto& profile = set.profiles.at(0);
  REQUIRE(profile.checks.size() == 2);
  // Ground up: shoulders before hands.
  CHECK(profile.checks[0].drives == std::vector<std::string>{"top/mine"});
  CHECK(profile.checks[1].id == "top/mine");
  CHECK(profile.checks[1].rule == "mine");
  CHECK(profile.checks[1].title == "Mine");
  CHECK(profile.checks[1].dimension == Dimension::length);

  measure::Measurement measured;
  measured.rule = &set.own_measures[0]->rule();
  measured.position = Position::top;
  measured.value = inches(4);
  measured.standard_uncertainty = inches(0.1);
  Fitted fitted{profile, {}, {}};
  fitted.profile.checks.erase(fitted.profile.checks.begin());
  const auto result = grade::grade(fitted, std::span(&measured, 1), {});
  CHECK(result.results[0].verdict == Verdict::high);
  CHECK_CLOSE(*result.results[0].value_si, inches(4), 1e-12);
}

TEST_CASE("own measures: where profiles may not use one") {
  const Folder folder;
  folder.write("measures.yaml", facts + "    distance: { from: trail hip, to: lead wrist }\n");
  const auto said = [&](const std::string& body) {
    folder.write("iron.yaml", head + body);
    return folder.complaint();
  };
  CHECK(said("checks:\n  mine: { target: 1..2 in, fade: 2 in }\n") ==
        "iron.yaml:8: checks.mine: is not measured at address (it is measured at top, impact)");
  CHECK(said("positions:\n  p4:\n    mine: { target: 1..2 deg, fade: 2 in }\n")
            .starts_with("iron.yaml:9: positions.p4.mine.target: \"1 deg\" isn't a length"));
  CHECK(said("positions:\n  p4:\n    min: { target: 1..2 in, fade: 2 in }\n") ==
        "iron.yaml:9: positions.p4.min: there is no such measure (did you mean mine?)");
  CHECK(said("observed:\n  mine: { accept: [near] }\n") ==
        "iron.yaml:8: observed.mine: is the name of a measure (put it under positions:)");
}

TEST_CASE("own measures: the hash covers them, and a folder needs none") {
  const Folder folder;
  CHECK(folder.loaded().own_measures.empty());
  folder.write("measures.yaml", facts + "    distance: { from: ball, to: nose }\n");
  const auto first = folder.loaded().hash;
  folder.write("measures.yaml", facts + "    distance: { from: ball, to: neck }\n");
  CHECK(folder.loaded().hash != first);
}

TEST_CASE("lint: what a measure must say") {
  const std::string length = "    distance: { from: ball, to: nose }\n";
  CHECK(complaint("version: 1\n") ==
        "measures.yaml: measures: should be a map of keys and values, is nothing");
  CHECK(complaint("version: 1\nmeasure: {}\n") ==
        "measures.yaml:2: measure: there is no such key (did you mean measures?)");
  const auto without = [&](const std::string& line) {
    std::string file = facts + length;
    file.erase(file.find("    " + line), line.size() + 5);
    return complaint(file);
  };
  CHECK(without("title: Mine") ==
        "measures.yaml:4: measures.mine.title: is missing (add this key)");
  CHECK(without("region: hands") ==
        "measures.yaml:4: measures.mine.region: is missing (add this key)");
  CHECK(without("sign: positive up") ==
        "measures.yaml:4: measures.mine.sign: is missing (add this key)");
  CHECK(without("at: [top, p7]") ==
        "measures.yaml:4: measures.mine.at: says no position (write [top, impact] or one alone)");
  const auto with = [&](const std::string& old, const std::string& now) {
    std::string file = facts + length;
    file.replace(file.find(old), old.size(), now);
    return complaint(file);
  };
  CHECK(with("hands", "hand") ==
        "measures.yaml:5: measures.mine.region: \"hand\" should be feet, knees, hips, spine, "
        "shoulders, arms, hands, grip, head, club or balance (did you mean hands?)");
  CHECK(with("p7", "impct") ==
        "measures.yaml:6: measures.mine.at: \"impct\" is no position (did you mean impact?)");
  CHECK(with("title", "titel") ==
        "measures.yaml:4: measures.mine.title: is missing (add this key)");
  CHECK(with("    sign", "    colour: red\n    sign") ==
        "measures.yaml:7: measures.mine.colour: there is no such key");
  CHECK(with("  mine:", "  stance-width:") ==
        "measures.yaml:3: measures.stance-width: stance-width is a measure that is built in "
        "(choose another name)");
  CHECK(with("  mine:", "  club-path:") ==
        "measures.yaml:3: measures.club-path: is the name of a reading (choose another name)");
  CHECK(with("  mine:", "  top/mine:") ==
        "measures.yaml:3: measures.top/mine: a / stands between position and measure "
        "(choose another name)");
  CHECK(with("    distance", "    seen-within: 3 deg\n    distance") ==
        "measures.yaml:8: measures.mine.seen-within: \"3 deg\" isn't a length: it is an angle "
        "(write a number and a unit: in, ft, m, cm, mm)");
}

TEST_CASE("lint: primitives that can't be") {
  const auto said = [](const std::string& primitive) { return complaint(facts + primitive); };
  const std::string one_of =
      " (write one of angle-at-joint, line-against, distance, ratio and change)";
  CHECK(said("") == "measures.yaml:3: measures.mine: says nothing to measure" + one_of);
  CHECK(said("    distanse: { from: ball, to: nose }\n") ==
        "measures.yaml:8: measures.mine.distanse: there is no such key (did you mean distance?)");
  CHECK(said("    distance: { from: ball, to: nose }\n    change: { of: 3 }\n") ==
        "measures.yaml:9: measures.mine.change: stands beside distance (keep one of the two)");
  CHECK(said("    distance: far\n") ==
        "measures.yaml:8: measures.mine.distance: should be a map of keys and values, is \"far\"");
  CHECK(said("    distance: { from: ball }\n") ==
        "measures.yaml:8: measures.mine.distance.to: is missing "
        "(write a landmark, or [one, two] for the middle of them)");
  CHECK(said("    distance: { from: ball, to: lead kneee }\n") ==
        "measures.yaml:8: measures.mine.distance.to: \"lead kneee\" is no landmark "
        "(did you mean lead knee?)");
  CHECK(said("    distance: { from: ball, to: [nose, knee] }\n") ==
        "measures.yaml:8: measures.mine.distance.to: \"knee\" is there on both sides "
        "(write lead knee or trail knee)");
  CHECK(said("    distance: { from: ball, to: [nose, nose] }\n") ==
        "measures.yaml:3: measures.mine: a point names the nose twice (name it once)");
  CHECK(said("    distance: { from: ball, to: nose, along: line }\n") ==
        "measures.yaml:8: measures.mine.distance.along: \"line\" should be target, up or ball");
  CHECK(said("    distance: { from: ball, to: nose, alone: up }\n") ==
        "measures.yaml:8: measures.mine.distance.alone: there is no such key "
        "(did you mean along?)");
  CHECK(said("    angle-at-joint: { first: lead hip, joint: lead knee, second: lead ankle, as: "
             "bend }\n") ==
        "measures.yaml:8: measures.mine.angle-at-joint.as: \"bend\" should be flexion or included");
  CHECK(said("    line-against: { line: lead hip, against: up, in: front }\n") ==
        "measures.yaml:8: measures.mine.line-against.line: should be a line "
        "(write [from, to]; for the middle of two points [[one, two], to])");
  CHECK(said("    line-against: { line: [lead hip, lead knee], against: up }\n") ==
        "measures.yaml:8: measures.mine.line-against.in: is missing (add this key)");
  CHECK(said("    line-against: { line: [lead hip, lead knee], against: down, in: front }\n") ==
        "measures.yaml:8: measures.mine.line-against.against: \"down\" should be target, up or "
        "ball");
  CHECK(said("    ratio: { over: { distance: { from: ball, to: nose } } }\n") ==
        "measures.yaml:8: measures.mine.ratio.under: is missing" + one_of);
  CHECK(said("    ratio:\n      over: { distance: { from: ball, to: nose } }\n"
             "      under: { of: nose }\n") ==
        "measures.yaml:10: measures.mine.ratio.under.of: there is no such key");
  CHECK(said("    change: { of: { distance: { from: ball, to: nos } } }\n") ==
        "measures.yaml:8: measures.mine.change.of.distance.to: \"nos\" is no landmark "
        "(did you mean nose?)");
  CHECK(said("    change: { of: { change: { of: { distance: { from: ball, to: nose } } } } }\n") ==
        "measures.yaml:3: measures.mine: a change is taken of a change "
        "(take the change since address once)");
}
