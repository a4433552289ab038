// SPDX-License-Identifier: MIT
#include "grade/lint.hpp"

#include <algorithm>
#include <cmath>
#include <random>

#include "folder.hpp"
#include "grade/advice.hpp"
#include "measure/measurement.hpp"

namespace rangecheck::grade {
namespace {

/// What lint says of a folder, a line each; advice after "advice: ".
std::vector<std::string> said_of(const Folder& folder,
                                 const std::vector<std::filesystem::path>& files = {}) {
  std::vector<std::string> out;
  for (const auto& [error, refuses] : lint(folder.path(), files).findings)
    out.push_back((refuses ? "" : "advice: ") + to_string(error));
  return out;
}

const std::string words = ", low: Low., high: High., drill: Drill. }\n";

TEST_CASE("lint: every fault is told, not only the first") {
  const Folder folder;
  folder.write("iron.yaml", head +
                                "confidence: 2\n"
                                "checks:\n"
                                "  stance-widht: { target: 14..15 in, fade: 1 in }\n"
                                "  stance-width: { target: 15..14 in, fade: 1 }\n"
                                "  hip-hinge: { taget: 46..64 deg, fade: 10 deg }\n"
                                "positions:\n"
                                "  topp: { hip-turn: { target: 30..60 deg, fade: 5 deg } }\n"
                                "  top:\n"
                                "    stance-width: { target: 14..15 in, fade: 1 in }\n");
  folder.write("limits.yaml",
               "version: 1\nlimits:\n  stiff:\n    switch-off: [sid-bend]\n  sore: {}\n");
  const std::vector<std::string> expected = {
      "iron.yaml:7: confidence: must be more than 0.5 and less than 1",
      "iron.yaml:9: checks.stance-widht: there is no such measure (did you mean stance-width?)",
      "iron.yaml:10: checks.stance-width.target: \"15..14 in\": the lower limit must be less than "
      "the upper (write `14..15 in`, `at-least 3 deg`, `at-most 5 deg` or `around 30 deg ± 5 deg`)",
      "iron.yaml:10: checks.stance-width.fade: \"1\" isn't a length: it has no unit (write a "
      "number "
      "and a unit: in, ft, m, cm, mm)",
      "iron.yaml:11: checks.hip-hinge.taget: there is no such key (did you mean target?)",
      "iron.yaml:13: positions.topp: there is no such position (did you mean top?)",
      "iron.yaml:15: positions.top.stance-width: is not measured at top (it is measured at "
      "address)",
      "limits.yaml:4: limits.stiff.because: is missing (add this key)",
      "limits.yaml:4: limits.stiff.switch-off: \"sid-bend\" is no check (did you mean side-bend?)",
      "limits.yaml:5: limits.sore.because: is missing (add this key)"};
  CHECK(said_of(folder) == expected);
}

TEST_CASE("lint: the first that a run would tell is among them") {
  const Folder folder;
  folder.write("iron.yaml", head + "checks:\n  stance-width: { target: 1 in, wieght: 2 }\n");
  const auto all = said_of(folder);
  CHECK(all.size() == 2);
  CHECK(std::ranges::count(all, folder.complaint()) == 1);
}

TEST_CASE("lint: a fault is not told again by what hangs on it") {
  const Folder folder;
  folder.write("base.yaml",
               "version: 1\nid: base\nchecks:\n  stance-width: { target: x, fade: 1 in }\n");
  folder.write("iron.yaml", head + "extends: base\nchecks:\n  stance-width: { weight: 2 }\n");
  CHECK(said_of(folder).size() == 1);
  folder.write("base.yaml", "version: 1\nid: base\nchecks: [\n");
  CHECK(said_of(folder).size() == 1);
  folder.write("base.yaml", "version: 1\nid: base\n");
  folder.write("clubs.yaml", "version: 1\nfamilies: none\n");
  CHECK(said_of(folder).size() == 1);
}

TEST_CASE("lint: two profiles for one club, swing and style") {
  const Folder folder;
  const std::string checks = "checks:\n  stance-width: { target: 14..15 in, fade: 1 in" + words;
  folder.write("a.yaml", head + checks);
  folder.write(
      "b.yaml",
      "version: 1\nid: b\ntitle: B\nclub: middle-iron\nswing: full\nstyle: neutral\n" + checks);
  CHECK(said_of(folder) ==
        std::vector<std::string>{
            "b.yaml:2: id: middle-iron, full, neutral is covered by iron as well"});
}

TEST_CASE("lint: advice where nothing is wrong") {
  const Folder folder;
  folder.write("measures.yaml",
               "version: 1\nmeasures:\n  gap: { title: Gap, region: knees, at: top, sign: more, "
               "distance: { from: trail knee, to: lead knee } }\n");
  folder.write("lost.yaml", "version: 1\nid: lost\n");
  folder.write("passed-over.yml", "version: 1\n");
  folder.write("iron.yaml", head +
                                "checks:\n"
                                "  stance-width: { target: 14..15 in, fade: 1 in, weight: 0 }\n"
                                "  hip-hinge: { target: at-least 46 deg, fade: 9 deg, drives: "
                                "[side-bend] }\n"
                                "  spine-curve: { off: true }\n");
  folder.write("limits.yaml",
               "version: 1\nlimits:\n  stiff: { because: stiff, switch-off: [hip-tilt] }\n");
  const std::vector<std::string> expected = {
      "advice: iron.yaml:8: stance-width: has no weight: no grade counts it, and nobody is told to "
      "work on it (write `off: true` to leave it out, or a weight)",
      "advice: iron.yaml:9: hip-hinge: says nothing under low: (say what is wrong below the band)",
      "advice: iron.yaml:9: hip-hinge: says nothing under drill: (say what to practise)",
      "advice: iron.yaml:9: hip-hinge: drives side-bend, which no profile checks (leave it out, or "
      "add that check)",
      "advice: iron.yaml:10: spine-curve: switches off what nothing asks for (leave it out, or "
      "check "
      "the spelling of what it extends)",
      "advice: limits.yaml:3: stiff: changes hip-tilt, which no profile checks (leave it out)",
      "advice: lost.yaml:2: lost: names no club, and nothing extends it: it counts nowhere (add "
      "`club:`, or name it under extends:)",
      "advice: measures.yaml:3: gap: is measured, but no profile checks it (give it a target in a "
      "profile)",
      "advice: passed-over.yml: is not read (call it .yaml)"};
  CHECK(said_of(folder) == expected);
}

TEST_CASE("lint: checks that can't be met together") {
  const Folder folder;
  const auto with = [&](const std::string& difference) {
    folder.write("iron.yaml", head +
                                  "checks:\n  lead-knee-flexion: { target: 15..20 deg, fade: 5 "
                                  "deg" +
                                  words +
                                  "  trail-knee-flexion: { target: 25..30 deg, fade: 5 deg" +
                                  words + "  knee-flexion-difference: { target: " + difference +
                                  ", fade: 5 deg" + words);
    return said_of(folder);
  };
  CHECK(with("3..6 deg").empty());  // 5 to 15 deg are left
  CHECK(
      with("-6..4 deg") ==
      std::vector<std::string>{
          "advice: iron.yaml:10: knee-flexion-difference: can't be met together with "
          "trail-knee-flexion (iron.yaml:9) and lead-knee-flexion (iron.yaml:8), which leave 5..15 "
          "deg (change one of the three bands)"});
}

TEST_CASE("lint: relations hold for any body") {
  std::mt19937 bits(7);
  std::uniform_real_distribution<double> place(-1, 1);
  const auto value = [](const measure::Rule& rule, const auto& now, const auto& then) {
    std::vector<measure::Point> points;
    for (const LandmarkId id : rule.needs) points.push_back(now[index_of(id)]);
    for (const LandmarkId id : rule.address_needs) points.push_back(then[index_of(id)]);
    return rule.measure(points);
  };
  const auto body = [&] {
    std::vector<measure::Point> points(landmark_count);
    for (auto& point : points) point = measure::Point(place(bits), place(bits), place(bits));
    return points;
  };
  for (const auto& relation : relations()) {
    CAPTURE(relation.whole);
    const auto* whole = measure::find_rule(relation.whole);
    const auto* more = measure::find_rule(relation.more);
    const auto* less = measure::find_rule(relation.less);
    REQUIRE((whole && more && less));
    if (relation.ratio) {  // of times; its formula is tested where it is
      const std::vector<double> times = {0.0, 0.9, 1.2};
      const auto ratio = whole->measure_times(times);
      CHECK(ratio.value() == doctest::Approx(3));
      continue;
    }
    for (int i = 0; i < 50; ++i) {
      const auto now = body(), then = body();
      const auto is = value(*whole, now, then), a = value(*more, now, then),
                 b = value(*less, relation.since_address ? then : now, then);
      REQUIRE((is && a && b));
      double off = *is - (*a - *b);
      if (whole->dimension == Dimension::angle) off = std::remainder(off, std::acos(-1.0));
      CHECK(std::abs(off) < 1e-9);
    }
  }
}

TEST_CASE("lint: a file elsewhere is read as if it were in the folder, and told of alone") {
  const Folder folder, elsewhere;
  const std::string checks = "checks:\n  stance-width: { target: 14..15 in, fade: 1 in" + words;
  folder.write("iron.yaml", head + checks);
  folder.write("lost.yaml", "version: 1\nid: lost\n");
  elsewhere.write("mine.yaml",
                  "version: 1\nid: mine\ntitle: Mine\nextends: iron\nstyle: mine\nchecks:\n"
                  "  stance-width: { weight: 0 }\n");
  const auto file = elsewhere.path() / "mine.yaml";
  CHECK(said_of(folder, {file}) ==
        std::vector<std::string>{
            "advice: " + file.string() +
            ":7: stance-width: has no weight: no grade counts it, and nobody is told to work on it "
            "(write `off: true` to leave it out, or a weight)"});
  CHECK(said_of(folder, {folder.path() / "iron.yaml"}).empty());
}

TEST_CASE("lint: what is shipped is without a finding") {
  const auto found = lint(std::filesystem::path(RANGECHECK_SOURCE_DIR) / "profiles", {});
  for (const auto& finding : found.findings) CHECK(to_string(finding.error) == "");
  CHECK(found.profiles == 26);
}

}  // namespace
}  // namespace rangecheck::grade
