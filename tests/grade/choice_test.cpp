// SPDX-License-Identifier: MIT
#include "close.hpp"
#include "folder.hpp"

using namespace rangecheck;
using namespace rangecheck::grade;

namespace {

double radians(double degrees) { return Angle::degrees(degrees).in_radians(); }

const std::string bend =
    "checks:\n"
    "  lead-knee-flexion: { target: 15..27 deg, fade: 8 deg }\n"
    "  forward-bend: { target: 35..43 deg, fade: 6 deg }\n"
    "  lead-elbow-flexion: { target: at-most 20 deg, fade: 6 deg }\n";

const std::string limits =
    "version: 1\nlimits:\n"
    "  no deep knee flexion:\n"
    "    because: asked for\n"
    "    shift: { lead-knee-flexion: { lower: -8 deg, upper: -5 deg } }\n"
    "  stiff lower back:\n"
    "    because: comfort first\n"
    "    switch-off: [forward-bend, spine-curve]\n"
    "  knees much less:\n"
    "    because: asked for\n"
    "    shift: { lead-knee-flexion: { upper: -20 deg }, lead-elbow-flexion: { lower: 3 deg } }\n";

struct Set {
  Folder folder;
  Set() {
    folder.write("iron.yaml", head + bend);
    folder.write("pre.yaml",
                 "version: 1\nid: iron-pre\ntitle: Pre\nextends: iron\nstyle: pre-set\n");
    folder.write("chip.yaml",
                 "version: 1\nid: chip\ntitle: Chip\nextends: iron\nclub: wedge\nswing: chip\n");
    folder.write("limits.yaml", limits);
    folder.write("students/s-1.yaml",
                 "version: 1\nbecause: a long back\n"
                 "target: { forward-bend: 28..36 deg }\n");
  }
};

intake::Golfer golfer(std::vector<std::string> with) {
  intake::Golfer made;
  made.id = "s-9";
  made.limits = std::move(with);
  return made;
}

using Notes = std::vector<std::string>;

Notes notes(const Fitted& fitted) {
  Notes all;
  for (const auto& change : fitted.changes) all.push_back(to_string(change));
  return all;
}

}  // namespace

TEST_CASE("choose: by club in any spelling, swing and style") {
  const Set files;
  const auto set = files.folder.loaded();
  const auto chosen = [&](const char* club, const char* swing, const char* style) {
    const auto profile = choose_profile(set, club, swing, style);
    return profile ? (*profile)->id : to_string(profile.error());
  };
  CHECK(chosen("7-iron", "full", "") == "iron");
  CHECK(chosen("7 Iron", "full", "neutral") == "iron");
  CHECK(chosen("7i", "full", "Pre-set") == "iron-pre");
  CHECK(chosen("middle-iron", "full", "") == "iron");
  CHECK(chosen("PW", "chip", "") == "chip");
  CHECK(chosen("8-iron", "full", "") ==
        "club: \"8-iron\" is no club that clubs.yaml knows (did you mean 7-iron?)");
  CHECK(chosen("7-iron", "full", "pre-sett") ==
        "there is no profile for middle-iron, full, pre-sett "
        "(the nearest is iron-pre (middle-iron, full, pre-set))");
  CHECK(chosen("7-iron", "chip", "") ==
        "there is no profile for middle-iron, chip, neutral "
        "(the nearest is iron (middle-iron, full, neutral))");
}

TEST_CASE("fit: a limit moves a band and says so") {
  const Set files;
  const auto set = files.folder.loaded();
  const auto fitted = fit_to_student(set.profiles[1], set, golfer({"No deep knee  flexion"}));
  REQUIRE(fitted);
  const auto* knee = find_check(fitted->profile, "lead-knee-flexion");
  CHECK_CLOSE(*knee->band.lower_si, radians(7), 1e-12);
  CHECK_CLOSE(*knee->band.upper_si, radians(22), 1e-12);
  CHECK(notes(*fitted) == Notes{"lead-knee-flexion: 7..22 deg instead of 15..27 deg "
                                "(No deep knee  flexion: asked for)"});
  CHECK(fitted->switched_off.empty());
}

TEST_CASE("fit: a limit switches checks off, those that are there") {
  const Set files;
  const auto set = files.folder.loaded();
  const auto fitted = fit_to_student(set.profiles[1], set, golfer({"stiff lower back"}));
  REQUIRE(fitted);
  REQUIRE(fitted->switched_off.size() == 1);
  CHECK(fitted->switched_off.at("forward-bend") == "stiff lower back: comfort first");
  CHECK(notes(*fitted) == Notes{"forward-bend: not judged (stiff lower back: comfort first)"});
}

TEST_CASE("fit: a student's own file gives a band of their own") {
  const Set files;
  const auto set = files.folder.loaded();
  auto own = golfer({});
  own.id = "s-1";
  const auto fitted = fit_to_student(set.profiles[1], set, own);
  REQUIRE(fitted);
  const auto* check = find_check(fitted->profile, "forward-bend");
  CHECK_CLOSE(*check->band.lower_si, radians(28), 1e-12);
  CHECK(check->origin == "students/s-1.yaml:1");
  CHECK(notes(*fitted) == Notes{"forward-bend: 28..36 deg instead of 35..43 deg "
                                "(for this student: a long back)"});
}

TEST_CASE("fit: a limit that nobody wrote down is refused, never dropped") {
  const Set files;
  const auto set = files.folder.loaded();
  const auto fitted = fit_to_student(set.profiles[1], set, golfer({"no deep knee flexon"}));
  REQUIRE(!fitted);
  CHECK(to_string(fitted.error()) ==
        "limits: \"no deep knee flexon\" is no limit that limits.yaml knows "
        "(did you mean no-deep-knee-flexion?)");
}

TEST_CASE("fit: limits that leave no band are refused, and an open side stays open") {
  const Set files;
  const auto set = files.folder.loaded();
  const auto fitted = fit_to_student(set.profiles[1], set, golfer({"knees much less"}));
  REQUIRE(!fitted);
  CHECK(to_string(fitted.error()) ==
        "limits: together they leave lead-knee-flexion no band (15..7 deg) "
        "(switch the check off instead)");
}
