// SPDX-License-Identifier: MIT
// The profiles that come with the program: they load, cover every stroke, and hold the values that
// are common practice among coaches (no source).
#include <set>

#include "close.hpp"
#include "folder.hpp"

using namespace rangecheck;
using namespace rangecheck::grade;

namespace {

const ProfileSet& shipped() {
  static const auto set = load_profiles(RANGECHECK_SOURCE_DIR "/profiles");
  REQUIRE_MESSAGE(bool(set), (set ? "" : to_string(set.error())));
  return *set;
}

const Profile& profile(const std::string& club, const std::string& swing,
                       const std::string& style) {
  const auto chosen = choose_profile(shipped(), club, swing, style);
  REQUIRE_MESSAGE(bool(chosen), (chosen ? "" : to_string(chosen.error())));
  return **chosen;
}

/// The band of a check, in the unit it is written in.
std::string band(const Profile& of, std::string_view id) {
  const auto* check = find_check(of, id);
  REQUIRE_MESSAGE(check != nullptr, id);
  return to_string(check->band, check->dimension, check->unit);
}

double middle(const Profile& of, std::string_view id) {
  const auto* check = find_check(of, id);
  REQUIRE(check != nullptr);
  return (*check->band.lower_si + *check->band.upper_si) / 2;
}

const std::string styles[] = {"neutral", "preset"};
const std::string full_families[] = {"driver",      "fairway-or-hybrid", "long-iron",
                                     "middle-iron", "short-iron",        "wedge"};

}  // namespace

TEST_CASE("shipped: every club, stroke and style has its profile") {
  std::set<std::string> used;
  for (const auto& style : styles) {
    const auto use = [&](const std::string& club, const std::string& swing) {
      used.insert(profile(club, swing, style).id);
    };
    for (const auto& family : full_families) use(family, "full");
    for (const char* club : {"wedge", "short-iron"}) use(club, "pitch");
    for (const char* club : {"wedge", "short-iron", "middle-iron"}) use(club, "chip");
    use("sand wedge", "bunker");
    use("putter", "putt");
  }
  CHECK(used.size() == shipped().profiles.size());  // none that nothing chooses
}

TEST_CASE("shipped: clubs as students write them") {
  const auto& clubs = shipped().club_families;
  const std::pair<const char*, const char*> rows[] = {
      {"driver", "driver"},    {"3-wood", "fairway-or-hybrid"}, {"4-hybrid", "fairway-or-hybrid"},
      {"3-iron", "long-iron"}, {"7-iron", "middle-iron"},       {"9i", "short-iron"},
      {"pw", "wedge"},         {"pitching-wedge", "wedge"},     {"putter", "putter"}};
  for (const auto& [club, family] : rows) {
    CAPTURE(club);
    REQUIRE(clubs.contains(club));
    CHECK(clubs.at(club) == family);
  }
  CHECK(&profile("7 iron", "full", "") == &profile("7-Iron", "full", "neutral"));
}

TEST_CASE("shipped: bands, fades and words can be used") {
  for (const auto& profile : shipped().profiles) {
    CAPTURE(profile.id);
    for (const auto& check : profile.checks) {
      CAPTURE(check.id);
      CHECK(!check.origin.empty());
      CHECK(!check.title.empty());
      CHECK(check.fade_si > 0);
      CHECK(check.weight > 0);
      if (check.subject == Subject::observed) {
        CHECK(!check.accept.empty());
        CHECK(!check.words.low.empty());
        continue;
      }
      CHECK((check.band.lower_si || check.band.upper_si));
      if (check.band.lower_si && check.band.upper_si)
        CHECK(*check.band.lower_si < *check.band.upper_si);
      if (check.band.lower_si) CHECK(!check.words.low.empty());
      if (check.band.upper_si) CHECK(!check.words.high.empty());
      // Only the start direction has no drill: it follows from face and path.
      if (check.id != "start-direction") CHECK(!check.words.drill.empty());
    }
  }
}

TEST_CASE("shipped: drills that load knees, hips, back or neck say when to stop") {
  for (const auto& profile : shipped().profiles) {
    for (const char* id : {"lead-knee-flexion", "trail-knee-flexion", "trail-knee-inset",
                           "hip-hinge", "forward-bend", "side-bend", "spine-curve", "chin-down"}) {
      const auto* check = find_check(profile, id);
      CAPTURE(profile.id);
      REQUIRE_MESSAGE(check != nullptr, id);
      CHECK(!check->words.caution.empty());
    }
  }
}

TEST_CASE("shipped: stance of a full swing with an iron, common practice, no source") {
  for (const auto& style : styles) {
    for (const char* club : {"4-iron", "7-iron", "9-iron"}) {
      const auto& iron = profile(club, "full", style);
      CHECK(band(iron, "stance-width") == "14..15 in");
      CHECK(band(iron, "lead-foot-flare") == "15..20 deg");
      CHECK(band(iron, "trail-foot-flare") == "15..20 deg");
    }
  }
}

TEST_CASE("shipped: the pre-set style, common practice, no source") {
  for (const auto& family : full_families) {
    const auto& preset = profile(family, "full", "preset");
    CAPTURE(preset.id);
    CHECK(band(preset, "shoulder-line-to-stance") == "25..35 deg");
    CHECK(band(preset, "lead-palm-turn") == "25..30 deg");
    CHECK(band(preset, "face-to-target") == "1..2 deg");
    CHECK(band(preset, "club-path") == "3..4 deg");
    CHECK(*find_check(preset, "stance-line")->band.upper_si < 0);              // closed
    CHECK(*find_check(preset, "trail-toe-setback")->band.lower_si > 0);        // trail foot back
    CHECK(*find_check(preset, "hip-line-to-stance")->band.lower_si > 0);       // open
    CHECK(*find_check(preset, "knee-flexion-difference")->band.lower_si > 0);  // trail bent more
    CHECK(*find_check(preset, "trail-knee-inset")->band.lower_si > 0);         // pinched in
    const auto& neutral = profile(family, "full", "neutral");
    CHECK(middle(preset, "hands-ahead-of-ball") > middle(neutral, "hands-ahead-of-ball"));
  }
}

TEST_CASE("shipped: from driver to wedge the stance narrows and the body bends more") {
  for (const auto& style : styles) {
    const Profile* longer = nullptr;
    for (const auto& family : full_families) {
      const auto& here = profile(family, "full", style);
      CAPTURE(here.id);
      CHECK(*find_check(here, "forward-bend")->band.lower_si >= Angle::degrees(30).in_radians());
      CHECK(*find_check(here, "forward-bend")->band.upper_si <=
            Angle::degrees(45.0001).in_radians());
      if (longer != nullptr) {
        CHECK(middle(here, "stance-width") <= middle(*longer, "stance-width"));
        CHECK(middle(here, "ball-position") < middle(*longer, "ball-position"));
        CHECK(middle(here, "side-bend") <= middle(*longer, "side-bend"));
        CHECK(middle(here, "forward-bend") > middle(*longer, "forward-bend"));
      }
      longer = &here;
    }
    const auto& wedge = profile("wedge", "full", style);
    CHECK(middle(profile("wedge", "chip", style), "stance-width") < middle(wedge, "stance-width"));
    CHECK(middle(profile("putter", "putt", style), "stance-width") < middle(wedge, "stance-width"));
  }
}

TEST_CASE("shipped: every limit fits every profile, alone and all at once") {
  intake::Golfer all;
  for (const auto& [phrase, limit] : shipped().limits) {
    CHECK(!limit.because.empty());
    all.limits.push_back(phrase);
    intake::Golfer one;
    one.limits = {phrase};
    bool does_something = false;
    for (const auto& profile : shipped().profiles) {
      CAPTURE(profile.id);
      CAPTURE(phrase);
      const auto fitted = fit_to_student(profile, shipped(), one);
      REQUIRE_MESSAGE(bool(fitted), (fitted ? "" : to_string(fitted.error())));
      does_something = does_something || !fitted->notes.empty();
    }
    CHECK(does_something);
  }
  for (const auto& profile : shipped().profiles) CHECK(fit_to_student(profile, shipped(), all));
}
