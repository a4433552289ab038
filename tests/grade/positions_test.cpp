// SPDX-License-Identifier: MIT
// Profiles of the whole swing: positions, times, and what may stand where.
#include "close.hpp"
#include "folder.hpp"

using namespace rangecheck;
using namespace rangecheck::grade;

namespace {

double radians(double degrees) { return Angle::degrees(degrees).in_radians(); }

/// What is said about iron.yaml when `body` follows the head (so `body` starts on line 7).
std::string complaint(const std::string& body) {
  const Folder folder;
  folder.write("iron.yaml", head + body);
  return folder.complaint();
}

Profile profile_of(const std::string& body) {
  const Folder folder;
  folder.write("iron.yaml", head + body);
  return folder.loaded().profiles.at(0);
}

std::vector<std::string> ids(const Profile& profile) {
  std::vector<std::string> all;
  for (const auto& check : profile.checks) all.push_back(check.id);
  return all;
}

using Ids = std::vector<std::string>;

const std::string bend = "{ target: 30..40 deg, fade: 6 deg }\n";
const std::string turn = "{ target: 80..100 deg, fade: 15 deg }\n";

}  // namespace

TEST_CASE("positions: checks by position, then times, observations and readings") {
  const auto profile = profile_of(
      "observed:\n  lead-thumb: { accept: [under] }\n"
      "readings:\n  club-path: { target: 3..4 deg, fade: 2 deg }\n"
      "tempo:\n"
      "  tempo-ratio: { target: 2.6..3.4, fade: 0.6 }\n"
      "  backswing-time: { target: 0.6..1.1 s, fade: 300 ms }\n"
      "positions:\n"
      "  impact:\n    forward-bend: " +
      bend + "  p4:\n    shoulder-turn: " + turn + "    hip-turn: " + turn +
      "  address:\n    side-bend: " + bend + "checks:\n  forward-bend: " + bend);
  CHECK(ids(profile) == Ids{"forward-bend", "side-bend", "top/hip-turn", "top/shoulder-turn",
                            "impact/forward-bend", "backswing-time", "tempo-ratio", "lead-thumb",
                            "club-path"});
  const auto* at_address = find_check(profile, "side-bend");
  CHECK(at_address->rule == "side-bend");
  CHECK(at_address->position == Position::address);
  const auto* at_top = find_check(profile, "top/shoulder-turn");
  CHECK(at_top->rule == "shoulder-turn");
  CHECK(at_top->position == Position::top);
  CHECK(at_top->subject == Subject::measured);
  CHECK(at_top->title == "Shoulder turn");
  CHECK(at_top->origin == "iron.yaml:18");
  CHECK_CLOSE(*at_top->band.upper_si, radians(100), 1e-12);
  const auto* time = find_check(profile, "backswing-time");
  CHECK(time->rule == "backswing-time");
  CHECK(!time->position);
  CHECK(time->subject == Subject::measured);
  CHECK(time->dimension == Dimension::time);
  CHECK_CLOSE(*time->band.upper_si, 1.1, 1e-12);
  CHECK_CLOSE(time->fade_si, 0.3, 1e-12);
  CHECK(!find_check(profile, "lead-thumb")->position);
  CHECK(!find_check(profile, "club-path")->position);
  CHECK(find_check(profile, "club-path")->rule == "club-path");
}

TEST_CASE("positions: later files win key by key, whatever they call the position") {
  const Folder folder;
  folder.write(
      "base.yaml",
      "version: 1\nid: base\npositions:\n"
      "  top:\n    shoulder-turn: { target: 80..100 deg, fade: 15 deg, weight: 2, low: a }\n"
      "    hip-turn: " +
          turn + "  impact:\n    forward-bend: " + bend +
          "tempo:\n  tempo-ratio: { target: 2.6..3.4, fade: 0.6, weight: 2 }\n");
  folder.write("iron.yaml", head +
                                "extends: base\npositions:\n"
                                "  p4:\n    shoulder-turn: { target: 90..110 deg }\n"
                                "  p7:\n    forward-bend: { off: true }\n"
                                "tempo:\n  tempo-ratio: { target: 2..3 }\n");
  const auto profile = folder.loaded().profiles.at(0);
  CHECK(ids(profile) == Ids{"top/hip-turn", "top/shoulder-turn", "tempo-ratio"});
  const auto* changed = find_check(profile, "top/shoulder-turn");
  CHECK_CLOSE(*changed->band.lower_si, radians(90), 1e-12);
  CHECK_CLOSE(changed->weight, 2, 0);
  CHECK(changed->words.low == "a");
  CHECK(changed->origin == "iron.yaml:10");
  CHECK_CLOSE(*find_check(profile, "tempo-ratio")->band.lower_si, 2, 0);
  CHECK_CLOSE(find_check(profile, "tempo-ratio")->weight, 2, 0);
}

TEST_CASE("positions: what drives may name") {
  const auto profile = profile_of(
      "checks:\n"
      "  stance-width:\n    target: 14..15 in\n    fade: 2 in\n"
      "    drives: [side-bend, address/forward-bend, p4/pelvis-sway, tempo-ratio]\n"
      "positions:\n"
      "  top:\n"
      "    hip-turn:\n      target: 30..60 deg\n      fade: 12 deg\n"
      "      drives: [separation, impact/forward-bend, forward-bend, stance-width, club-path]\n");
  CHECK(find_check(profile, "stance-width")->drives ==
        Ids{"side-bend", "forward-bend", "top/pelvis-sway", "tempo-ratio"});
  // An id alone is of the same position, and of address where it is only measured there.
  CHECK(find_check(profile, "top/hip-turn")->drives == Ids{"top/separation", "impact/forward-bend",
                                                           "top/forward-bend", "stance-width",
                                                           "club-path"});
}

TEST_CASE("positions: checks that drive each other in a circle, over positions and files") {
  const Folder folder;
  folder.write(
      "base.yaml",
      "version: 1\nid: base\npositions:\n"
      "  top:\n    hip-turn: { target: 30..60 deg, fade: 9 deg, drives: p7/forward-bend }\n"
      "  impact:\n    forward-bend: " +
          bend);
  folder.write("iron.yaml", head +
                                "extends: base\npositions:\n"
                                "  p7:\n    forward-bend: { drives: [p4/hip-turn] }\n");
  CHECK(folder.complaint() ==
        "iron.yaml:10: positions.p7.forward-bend.drives: loops: top/hip-turn → "
        "impact/forward-bend → top/hip-turn");
}

TEST_CASE("lint: positions and times that can't be") {
  CHECK(complaint("positions:\n  tops:\n    shoulder-turn: " + turn) ==
        "iron.yaml:8: positions.tops: there is no such position (did you mean top?)");
  CHECK(complaint("positions:\n  p11:\n    shoulder-turn: " + turn) ==
        "iron.yaml:8: positions.p11: there is no such position (did you mean p1?)");
  CHECK(complaint("positions:\n  top:\n    shoulder-turn: " + turn +
                  "  p4:\n    hip-turn: " + turn) ==
        "iron.yaml:10: positions.p4: is the same position as top (put all under one of the two)");
  CHECK(complaint("positions: [top]\n") ==
        "iron.yaml:7: positions: should be a map of keys and values, is a list");
  CHECK(complaint("positions:\n  top: shoulder-turn\n") ==
        "iron.yaml:8: positions.top: should be a map of keys and values, is \"shoulder-turn\"");
  CHECK(complaint("positions:\n  top:\n    shoulder-trun: " + turn) ==
        "iron.yaml:9: positions.top.shoulder-trun: there is no such measure "
        "(did you mean shoulder-turn?)");
  CHECK(
      complaint("positions:\n  top:\n    shoulder-turn: { target: 1..2 in, fade: 1 deg }\n")
          .starts_with("iron.yaml:9: positions.top.shoulder-turn.target: \"1 in\" isn't an angle"));
  CHECK(complaint("positions:\n  top:\n    club-path: " + turn) ==
        "iron.yaml:9: positions.top.club-path: there is no such measure (put it under readings:)");
  CHECK(complaint("checks:\n  forward-bend: " + bend +
                  "positions:\n  p1:\n    forward-bend: " + bend) ==
        "iron.yaml:8: checks.forward-bend: stands in line 11 as well (keep one of the two)");
}

TEST_CASE("lint: a rule that is not measured there") {
  CHECK(complaint("positions:\n  top:\n    stance-width: { target: 14..15 in, fade: 1 in }\n") ==
        "iron.yaml:9: positions.top.stance-width: is not measured at top "
        "(it is measured at address)");
  CHECK(complaint("checks:\n  shoulder-turn: " + turn) ==
        "iron.yaml:8: checks.shoulder-turn: is not measured at address "
        "(it is measured at shaft-parallel-back to impact)");
  CHECK(complaint("checks:\n  top/shoulder-turn: " + turn) ==
        "iron.yaml:8: checks.top/shoulder-turn: there is no such measure "
        "(put shoulder-turn under positions: top:)");
  CHECK(complaint("readings:\n  shoulder-turn: " + turn) ==
        "iron.yaml:8: readings.shoulder-turn: there is no such reading "
        "(put it under positions:)");
  CHECK(complaint("tempo:\n  shoulder-turn: " + turn) ==
        "iron.yaml:8: tempo.shoulder-turn: there is no such time (put it under positions:)");
  CHECK(complaint("tempo:\n  tempo-rato: { target: 2..3, fade: 1 }\n") ==
        "iron.yaml:8: tempo.tempo-rato: there is no such time (did you mean tempo-ratio?)");
  CHECK(complaint("checks:\n  tempo-ratio: { target: 2..3, fade: 1 }\n") ==
        "iron.yaml:8: checks.tempo-ratio: there is no such measure (put it under tempo:)");
  CHECK(complaint("positions:\n  top:\n    tempo-ratio: { target: 2..3, fade: 1 }\n") ==
        "iron.yaml:9: positions.top.tempo-ratio: there is no such measure (put it under tempo:)");
  CHECK(complaint("tempo:\n  backswing-time: { target: 0.6..1.1, fade: 300 ms }\n")
            .starts_with("iron.yaml:8: tempo.backswing-time.target: "));
}

TEST_CASE("lint: drives to what can't be") {
  const auto drives = [](const std::string& list) {
    return complaint("positions:\n  top:\n    hip-turn:\n      drives: [" + list + "]\n");
  };
  const std::string at = "iron.yaml:10: positions.top.hip-turn.drives: ";
  CHECK(drives("impact/shoulder-trun") ==
        at + "\"impact/shoulder-trun\" is no check (did you mean impact/shoulder-turn?)");
  CHECK(drives("impct/shoulder-turn") == at + "\"impct\" is no position (did you mean impact?)");
  CHECK(drives("finish/shoulder-turn") == at + "shoulder-turn is not measured at finish "
                                               "(it is measured at shaft-parallel-back to impact)");
  CHECK(drives("hand-height-change") ==
        at + "hand-height-change is not measured at top (it is measured at impact)");
  CHECK(drives("impact/tempo-ratio") ==
        at + "tempo-ratio is of the whole swing (write tempo-ratio)");
  CHECK(drives("impact/club-path") == at + "club-path is of the whole swing (write club-path)");
}

TEST_CASE("limits: checks anywhere in the swing") {
  const Folder folder;
  folder.write("iron.yaml", head + "positions:\n  top:\n    shoulder-turn: " + turn +
                                "    hip-turn: " + turn + "  impact:\n    side-bend: " + bend);
  folder.write("limits.yaml",
               "version: 1\nlimits:\n  stiff:\n    because: comfort\n"
               "    shift:\n      p4/shoulder-turn: { lower: -20 deg }\n"
               "    target: { top/hip-turn: 20..60 deg }\n"
               "    switch-off: [p7/side-bend]\n");
  const auto set = folder.loaded();
  intake::Golfer golfer;
  golfer.limits = {"stiff"};
  const auto fitted = fit_to_student(set.profiles[0], set, golfer);
  REQUIRE(fitted);
  CHECK_CLOSE(*find_check(fitted->profile, "top/shoulder-turn")->band.lower_si, radians(60), 1e-12);
  CHECK_CLOSE(*find_check(fitted->profile, "top/hip-turn")->band.lower_si, radians(20), 1e-12);
  CHECK(fitted->switched_off.contains("impact/side-bend"));
  REQUIRE(fitted->changes.size() == 3);
  CHECK(to_string(fitted->changes[0]) ==
        "top/hip-turn: 20..60 deg instead of 80..100 deg (stiff: comfort)");
  CHECK(fitted->changes[0].limit == "stiff");

  const auto limits = [&](const std::string& body) {
    folder.write("limits.yaml", "version: 1\nlimits:\n  stiff:\n    because: x\n" + body);
    return folder.complaint();
  };
  CHECK(limits("    switch-off: [shoulder-turn]\n") ==
        "limits.yaml:5: limits.stiff.switch-off: shoulder-turn is not measured at address "
        "(it is measured at shaft-parallel-back to impact)");
  CHECK(limits("    shift:\n      tp/hip-turn: { lower: 1 deg }\n") ==
        "limits.yaml:6: limits.stiff.shift.tp/hip-turn: \"tp\" is no position (did you mean top?)");
  CHECK(limits("    target:\n      top/hip-turn: 1..2 deg\n      p4/hip-turn: 1..2 deg\n") ==
        "limits.yaml:7: limits.stiff.target.p4/hip-turn: top/hip-turn stands here twice "
        "(keep one of the two)");
}
