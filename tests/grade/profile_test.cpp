// SPDX-License-Identifier: MIT
#include "close.hpp"
#include "folder.hpp"

using namespace rangecheck;
using namespace rangecheck::grade;

namespace {

double inches(double value) { return Length::inches(value).in_metres(); }

/// What is said about iron.yaml when `body` follows the head (so `body` starts on line 7).
std::string complaint(const std::string& body) {
  const Folder folder;
  folder.write("iron.yaml", head + body);
  return folder.complaint();
}

const std::string width = "checks:\n  stance-width: { target: 14..15 in, fade: 2 in }\n";

}  // namespace

TEST_CASE("profile: everything a check can say") {
  const Folder folder;
  folder.write("iron.yaml", head +
                                "confidence: 0.9\n"
                                "least-seen: 0.3\n"
                                "checks:\n"
                                "  stance-width:\n"
                                "    target: 14..15 in\n"
                                "    fade: 2 in\n"
                                "    weight: 2\n"
                                "    drives: [side-bend]\n"
                                "    low: narrow\n"
                                "    high: wide\n"
                                "    inside: right\n"
                                "    drill: tees\n"
                                "    caution: mind the hips\n"
                                "readings:\n"
                                "  club-path: { target: 3..4 deg, fade: 2 deg }\n"
                                "observed:\n"
                                "  lead-thumb: { accept: [Trail side], outside: on top }\n");
  const auto set = folder.loaded();
  REQUIRE(set.profiles.size() == 1);
  const auto& profile = set.profiles[0];
  CHECK(profile.id == "iron");
  CHECK(profile.title == "Iron");
  CHECK(profile.club_family == "middle-iron");
  CHECK(profile.swing == "full");
  CHECK(profile.style == "neutral");
  CHECK_CLOSE(profile.confidence, 0.9, 0);
  CHECK_CLOSE(profile.least_seen_share, 0.3, 0);
  REQUIRE(profile.checks.size() == 3);
  const auto& check = profile.checks[0];
  CHECK(check.id == "stance-width");
  CHECK(check.subject == Subject::measured);
  CHECK(check.dimension == Dimension::length);
  CHECK(check.unit == "in");
  CHECK_CLOSE(*check.band.lower_si, inches(14), 1e-12);
  CHECK_CLOSE(*check.band.upper_si, inches(15), 1e-12);
  CHECK_CLOSE(check.fade_si, inches(2), 1e-12);
  CHECK_CLOSE(check.weight, 2, 0);
  CHECK(check.drives == std::vector<std::string>{"side-bend"});
  CHECK(check.words.low == "narrow");
  CHECK(check.words.high == "wide");
  CHECK(check.words.inside == "right");
  CHECK(check.words.drill == "tees");
  CHECK(check.words.caution == "mind the hips");
  CHECK(check.origin == "iron.yaml:11");
  CHECK(profile.checks[1].id == "lead-thumb");
  CHECK(profile.checks[1].title == "Lead thumb");
  CHECK(profile.checks[1].accept == std::vector<std::string>{"trail-side"});
  CHECK(profile.checks[1].words.low == "on top");
  CHECK(profile.checks[1].words.high == "on top");
  CHECK(profile.checks[2].id == "club-path");
  CHECK(profile.checks[2].subject == Subject::reading);
}

TEST_CASE("profile: the child wins key by key and says where each band came from") {
  const Folder folder;
  folder.write("base.yaml",
               "version: 1\nid: base\nswing: full\nstyle: neutral\nconfidence: 0.7\nchecks:\n"
               "  stance-width: { target: 14..15 in, fade: 2 in, weight: 3, low: narrow }\n"
               "  forward-bend: { target: 35..43 deg, fade: 6 deg }\n"
               "  side-bend: { target: 2..9 deg, fade: 4 deg }\n");
  folder.write("iron.yaml",
               "version: 1\nid: iron\ntitle: Iron\nextends: base\nclub: middle-iron\nchecks:\n"
               "  stance-width:\n    target: 30..35 cm\n"
               "  side-bend: { off: true }\n");
  const auto set = folder.loaded();
  REQUIRE(set.profiles.size() == 1);  // the base names no club and can't be chosen
  const auto& profile = set.profiles[0];
  CHECK_CLOSE(profile.confidence, 0.7, 0);
  REQUIRE(profile.checks.size() == 2);
  const auto* changed = find_check(profile, "stance-width");
  REQUIRE(changed != nullptr);
  CHECK_CLOSE(*changed->band.upper_si, 0.35, 1e-12);
  CHECK(changed->unit == "cm");
  CHECK(changed->origin == "iron.yaml:8");
  CHECK_CLOSE(changed->weight, 3, 0);
  CHECK(changed->words.low == "narrow");
  CHECK(find_check(profile, "forward-bend")->origin == "base.yaml:8");
}

TEST_CASE("profile: of several parents the later wins, and a shared one is laid down once") {
  const Folder folder;
  const auto part = [&](const std::string& id, const std::string& extends,
                        const std::string& target) {
    folder.write(id + ".yaml", "version: 1\nid: " + id + "\n" + extends +
                                   "checks:\n  stance-width: { target: " + target + " }\n");
  };
  part("base", "", "10..11 in, fade: 1 in");
  part("first", "extends: base\n", "12..13 in");
  folder.write("second.yaml",
               "version: 1\nid: second\nextends: base\nchecks:\n"
               "  side-bend: { target: 2..9 deg, fade: 4 deg }\n");
  folder.write("iron.yaml", head + "extends: [first, second]\n");
  const auto set = folder.loaded();
  REQUIRE(set.profiles.size() == 1);
  // `second` brings base along, which must not undo what `first` changed.
  CHECK_CLOSE(*find_check(set.profiles[0], "stance-width")->band.lower_si, inches(12), 1e-12);
  CHECK(find_check(set.profiles[0], "side-bend") != nullptr);
}

TEST_CASE("lint: unknown words name their line and the nearest known one") {
  CHECK(complaint("cheks:\n") == "iron.yaml:7: cheks: there is no such key (did you mean checks?)");
  CHECK(complaint("checks:\n  stance-widht: { target: 14..15 in, fade: 2 in }\n") ==
        "iron.yaml:8: checks.stance-widht: there is no such measure (did you mean stance-width?)");
  CHECK(complaint("checks:\n  stance-width: { target: 14..15 in, fad: 2 in }\n") ==
        "iron.yaml:8: checks.stance-width.fad: there is no such key (did you mean fade?)");
  CHECK(complaint("readings:\n  club-pat: { target: 3..4 deg, fade: 2 deg }\n") ==
        "iron.yaml:8: readings.club-pat: there is no such reading (did you mean club-path?)");
  CHECK(complaint("checks:\n  club-path: { target: 3..4 deg, fade: 2 deg }\n") ==
        "iron.yaml:8: checks.club-path: there is no such measure (put it under readings:)");
  CHECK(complaint("observed:\n  stance-width: { accept: [wide] }\n") ==
        "iron.yaml:8: observed.stance-width: is the name of a measure (put it under checks:)");
  CHECK(complaint(
            "checks:\n  side-bend: { target: 2..9 deg, fade: 4 deg, drives: [sholder-tilt] }\n") ==
        "iron.yaml:8: checks.side-bend.drives: \"sholder-tilt\" is no check "
        "(did you mean shoulder-tilt?)");
}

TEST_CASE("lint: values that can't be") {
  const auto check = [](const std::string& keys) {
    return complaint("checks:\n  stance-width:\n" + keys);
  };
  CHECK(check("    target: 14..15 deg\n    fade: 2 in\n") ==
        "iron.yaml:9: checks.stance-width.target: \"14 deg\" isn't a length: it is an angle "
        "(write a number and a unit: in, ft, m, cm, mm)");
  CHECK(check("    target: 14..15 in\n    fade: 0 in\n") ==
        "iron.yaml:10: checks.stance-width.fade: must be more than 0");
  CHECK(check("    target: 14..15 in\n    fade: 2 in\n    weight: -1\n") ==
        "iron.yaml:11: checks.stance-width.weight: must not be negative");
  CHECK(check("    target: 14..15 in\n    fade: 2 in\n    drives: { a: b }\n") ==
        "iron.yaml:11: checks.stance-width.drives: should be a list of words (write [one, two])");
  CHECK(check("    fade: 2 in\n") ==
        "iron.yaml:8: checks.stance-width: has no target (add `target:`)");
  CHECK(check("    target: 14..15 in\n") ==
        "iron.yaml:8: checks.stance-width: has no fade "
        "(add `fade:`, how far outside the score reaches 0)");
  CHECK(complaint("observed:\n  lead-thumb: { weight: 1 }\n") ==
        "iron.yaml:8: observed.lead-thumb: has no words to accept (add `accept: [word]`)");
  CHECK(complaint("observed:\n  lead-thumb: { accept: [] }\n") ==
        "iron.yaml:8: observed.lead-thumb.accept: accepts nothing");
  CHECK(complaint("confidence: 0.5\n" + width) ==
        "iron.yaml:7: confidence: must be more than 0.5 and less than 1");
  CHECK(complaint("least-seen: 1.1\n" + width) ==
        "iron.yaml:7: least-seen: must be between 0 and 1");
  CHECK(complaint("") == "iron.yaml:2: id: this profile checks nothing");
}

TEST_CASE("lint: heads that can't be") {
  const auto iron = [](const std::string& text) {
    const Folder folder;
    folder.write("iron.yaml", text + width);
    return folder.complaint();
  };
  CHECK(iron("id: iron\n") == "iron.yaml:1: version: is missing (add this key)");
  CHECK(iron("version: 2\nid: iron\n") ==
        "iron.yaml:1: version: this version of rangecheck reads version 1 only "
        "(write `version: 1`)");
  CHECK(iron("version: 1\n") == "iron.yaml:1: id: is missing (add this key)");
  CHECK(iron("version: 1\nid: iron\nclub: midle-iron\n") ==
        "iron.yaml:3: club: \"midle-iron\" is no family in clubs.yaml (did you mean middle-iron?)");
  CHECK(iron("version: 1\nid: iron\nswing: ful\n") ==
        "iron.yaml:3: swing: \"ful\" should be full, pitch, chip, bunker or putt "
        "(did you mean full?)");
  CHECK(iron("version: 1\nid: iron\nclub: middle-iron\n") ==
        "iron.yaml:2: id: a profile with a club needs a title (add `title:`)");
  CHECK(iron("version: 1\nid: iron\nclub: middle-iron\ntitle: Iron\n") ==
        "iron.yaml:2: id: a profile with a club needs a swing (add `swing:`)");
  CHECK(iron("version: 1\nid: iron\nclub: middle-iron\ntitle: Iron\nswing: full\n") ==
        "iron.yaml:2: id: a profile with a club needs a style (add `style:`)");
}

TEST_CASE("lint: what only the whole folder shows") {
  const Folder folder;
  folder.write("iron.yaml", head + width);
  folder.write("other.yaml", head + width);
  CHECK(folder.complaint() == "other.yaml:2: id: \"iron\" is taken by iron.yaml:2");
  folder.write("other.yaml", "version: 1\nid: two\ntitle: Two\nextends: iron\n");
  CHECK(folder.complaint() ==
        "other.yaml:2: id: middle-iron, full, neutral is covered by iron as well");
  folder.write("other.yaml", "version: 1\nid: two\nextends: irn\n");
  CHECK(folder.complaint() ==
        "other.yaml:3: extends: \"irn\" is the id of no profile (did you mean iron?)");
  folder.write("other.yaml", "version: 1\nid: two\nextends: two\n");
  CHECK(folder.complaint() == "other.yaml:3: extends: loops: two → two");
  folder.write("other.yaml", "version: 1\nid: two\nextends: three\n");
  folder.write("third.yaml", "version: 1\nid: three\nextends: two\n");
  CHECK(folder.complaint() == "third.yaml:3: extends: loops: two → three → two");
}

TEST_CASE("lint: checks that drive each other in a circle, also across files") {
  const Folder folder;
  folder.write("base.yaml",
               "version: 1\nid: base\nchecks:\n"
               "  side-bend: { target: 2..9 deg, fade: 4 deg, drives: [shoulder-tilt] }\n"
               "  shoulder-tilt: { target: 2..9 deg, fade: 4 deg }\n");
  folder.write("iron.yaml", head +
                                "extends: base\nchecks:\n"
                                "  shoulder-tilt: { drives: [side-bend] }\n");
  CHECK(folder.complaint() ==
        "iron.yaml:9: checks.shoulder-tilt.drives: loops: side-bend → shoulder-tilt → side-bend");
}

TEST_CASE("drives: may name a check that this profile does not have") {
  CHECK(complaint("checks:\n"
                  "  side-bend: { target: 2..9 deg, fade: 4 deg, drives: [shoulder-tilt] }\n") ==
        "no fault found");
}

TEST_CASE("clubs: missing or wrong") {
  const Folder folder;
  folder.write("clubs.yaml", "version: 1\nfamilies:\n  wood: [3w]\n  iron: [3W]\n");
  CHECK(folder.complaint() == "clubs.yaml:4: families.iron: \"3W\" is in wood as well");
  folder.write("clubs.yaml", "version: 1\nfamilies: [wood]\n");
  CHECK(folder.complaint() ==
        "clubs.yaml:2: families: should be a map of keys and values, is a list");
  folder.write("clubs.yaml", "version: 1\nfamilie: {}\n");
  CHECK(folder.complaint() ==
        "clubs.yaml:2: familie: there is no such key (did you mean families?)");
  const auto nowhere = load_profiles("/nonexistent/profiles");
  REQUIRE(!nowhere);
  CHECK(nowhere.error().fault == Fault::bad_profile);
  CHECK(to_string(nowhere.error()) ==
        "profiles: the profiles folder can't be read: No such file or directory "
        "(name a folder with --profiles)");
}

TEST_CASE("limits: every word in them is checked") {
  const Folder folder;
  folder.write("iron.yaml", head + width);
  const auto limits = [&](const std::string& body) {
    folder.write("limits.yaml", "version: 1\nlimits:\n  bad knee:\n" + body);
    return folder.complaint();
  };
  CHECK(limits("    switch-off: [side-bend]\n") ==
        "limits.yaml:4: limits.bad knee.because: is missing (add this key)");
  CHECK(
      limits("    because: x\n    switch-of: [side-bend]\n") ==
      "limits.yaml:5: limits.bad knee.switch-of: there is no such key (did you mean switch-off?)");
  CHECK(limits("    because: x\n    switch-off: [side-bendd]\n") ==
        "limits.yaml:5: limits.bad knee.switch-off: \"side-bendd\" is no check "
        "(did you mean side-bend?)");
  CHECK(limits("    because: x\n    shift:\n      side-bendd: { lower: 1 deg }\n") ==
        "limits.yaml:6: limits.bad knee.shift.side-bendd: there is no such check "
        "(did you mean side-bend?)");
  CHECK(limits("    because: x\n    shift:\n      side-bend: { lower: 1 in }\n") ==
        "limits.yaml:6: limits.bad knee.shift.side-bend.lower: \"1 in\" isn't an angle: it is a "
        "length (write a number and a unit: deg, rad)");
  CHECK(limits("    because: x\n    shift:\n      side-bend: {}\n") ==
        "limits.yaml:6: limits.bad knee.shift.side-bend: shifts nothing "
        "(write { lower: -5 deg, upper: -5 deg })");
}

TEST_CASE("language: each sentence keeps that of the file that says it") {
  const Folder folder;
  folder.write("iron.yaml",
               head + "checks:\n  stance-width: { target: 14..15 in, fade: 2 in, low: narrow }\n");
  folder.write("mine.yaml",
               "version: 1\nid: mine\nlanguage: de\ntitle: Eisen\nextends: iron\nstyle: mine\n"
               "checks:\n  stance-width: { drill: Zwei Tees. }\n");
  folder.write("limits.yaml",
               "version: 1\nlanguage: fr\nlimits:\n  genou:\n    because: moins\n"
               "    switch-off: [stance-width]\n");
  folder.write("students/s-1.yaml", "version: 1\nbecause: short\nswitch-off: [stance-width]\n");
  const auto set = folder.loaded();
  const Profile& mine = set.profiles[1];
  CHECK(mine.title == Written("Eisen", "de"));
  CHECK(mine.checks[0].words.drill == Written("Zwei Tees.", "de"));
  CHECK(mine.checks[0].words.low == Written("narrow", "en"));
  CHECK(set.profiles[0].title == Written("Iron", "en"));
  CHECK(set.limits.at("genou").name == Written("genou", "fr"));
  CHECK(set.limits.at("genou").because == Written("moins", "fr"));
  CHECK(set.students.at("s-1").because == Written("short", "en"));
  CHECK(set.students.at("s-1").name.empty());
  folder.write("mine.yaml", "version: 1\nid: mine\nlanguage: german\n");
  CHECK(folder.complaint() ==
        "mine.yaml:3: language: \"german\" is no tag of a language "
        "(write one as BCP 47 has them: en, de)");
}

TEST_CASE("hash: tells whether any file changed") {
  const Folder folder;
  folder.write("iron.yaml", head + width);
  const auto first = folder.loaded().hash;
  CHECK(first.size() == 32);
  CHECK(folder.loaded().hash == first);
  folder.write("iron.yaml", head + width + "# a remark\n");
  const auto second = folder.loaded().hash;
  CHECK(second != first);
  folder.write(".hidden.yaml", "not: [valid");
  CHECK(folder.loaded().hash == second);
}

TEST_CASE("hostile profiles: what would grow, go on for ever or hold up the night") {
  const auto said_of = [](const std::string& name, const std::string& text) {
    const Folder folder;
    folder.write("iron.yaml", head + width);
    folder.write(name, text);
    return folder.complaint();
  };
  CHECK(said_of("second.yaml", "a: &a [x]\nb: [*a, *a]\n") ==
        "second.yaml:2: YAML aliases (*name) are not accepted (write the value out)");
  CHECK(said_of("limits.yaml", "version: 1\nlimits: " + std::string(200'000, '[')) ==
        "limits.yaml:2: is nested more than 32 deep");
  std::string keys = "version: 1\nlimits:\n";
  for (int i = 0; i <= 1000; ++i) keys += "  k" + std::to_string(i) + ": {}\n";
  CHECK(said_of("limits.yaml", keys) == "limits.yaml:1003: more than 1000 keys stand in one map");
  CHECK(said_of("students/s-1.yaml", std::string((1u << 20) + 1, '#')) ==
        "students/s-1.yaml: is larger than 1 MiB (check that it is the right file)");
  CHECK(said_of("second.yaml", head + "checks:\n  stance-width: { target: 1e999 in, fade: 2 in }\n")
            .starts_with("second.yaml:8: checks.stance-width.target: "));
  const Folder folder;
  folder.write("iron.yaml", head + width);
  folder.make_pipe("second.yaml");
  CHECK(folder.load());  // no file is no profile
}
