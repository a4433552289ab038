// SPDX-License-Identifier: MIT
// The profiles that come with the program: they load, cover every stroke, and hold the values that
// are common practice among coaches (no source).
#include <set>

#include "close.hpp"
#include "folder.hpp"
#include "measure/measurement.hpp"

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

TEST_CASE("shipped: a whole swing is taught for every stroke, and address keeps its weight") {
  for (const auto& profile : shipped().profiles) {
    CAPTURE(profile.id);
    double address = 0, all = 0;
    std::set<Position> taught;
    bool beat = false;
    for (const auto& check : profile.checks) {
      all += check.weight;
      if (check.position == Position::address) address += check.weight;
      if (check.position) taught.insert(*check.position);
      beat = beat || check.id == "tempo-ratio";
    }
    const bool is_short = profile.swing == "chip" || profile.swing == "putt";
    CHECK(taught.size() == (is_short ? 3 : position_count));
    CHECK(beat);
    // About a third of a full swing, and more of a stroke that is mostly address.
    CHECK(address / all > (is_short ? 0.5 : 0.3));
    CHECK(address / all < (is_short ? 0.67 : 0.4));
  }
}

TEST_CASE("shipped: every check names something that is measured there") {
  for (const auto& profile : shipped().profiles) {
    for (const auto& check : profile.checks) {
      if (check.subject != Subject::measured) continue;
      CAPTURE(profile.id);
      CAPTURE(check.id);
      const measure::Rule* rule = measure::find_rule(check.rule);
      for (const auto& own : shipped().own_measures)
        if (own->rule().id == check.rule) rule = &own->rule();
      REQUIRE(rule != nullptr);
      CHECK(check.id == measure::check_id(check.rule, check.position));
      CHECK(check.position.has_value() != rule->is_timing());
      if (check.position) CHECK(rule->at.has(*check.position));
      CHECK(check.dimension == rule->dimension);
    }
  }
}

TEST_CASE("shipped: the own measures are used, lightly") {
  REQUIRE(!shipped().own_measures.empty());
  for (const auto& own : shipped().own_measures) {
    bool used = false;
    for (const auto& profile : shipped().profiles)
      for (const auto& check : profile.checks) {
        if (check.rule != own->rule().id) continue;
        used = true;
        CHECK(check.weight <= 0.25);
      }
    CHECK_MESSAGE(used, own->rule().id);
  }
}

TEST_CASE(
    "shipped: causes come before what they cause, and past address what they cause is there") {
  const auto moment_of = [](const Check& check) {
    return check.position ? index_of(*check.position) : position_count;
  };
  std::set<std::string> everywhere;
  for (const auto& profile : shipped().profiles)
    for (const auto& check : profile.checks) everywhere.insert(check.id);
  for (const auto& profile : shipped().profiles) {
    for (const auto& check : profile.checks) {
      for (const auto& id : check.drives) {
        CAPTURE(profile.id);
        CAPTURE(check.id);
        CAPTURE(id);
        if (id.find('/') != std::string::npos) CHECK(everywhere.contains(id));
        const auto* driven = find_check(profile, id);
        if (driven && check.position) CHECK(moment_of(check) <= moment_of(*driven));
      }
    }
  }
}

TEST_CASE("shipped: sentences are whole, and drills past address say when to stop") {
  const std::set<std::string> loading = {
      "hip-turn",         "hip-line-to-target", "forward-bend-change",
      "side-bend",        "separation",         "trail-knee-flexion-change",
      "trail-knee-inset", "knee-gap",           "lead-knee-flexion"};
  for (const auto& profile : shipped().profiles) {
    for (const auto& check : profile.checks) {
      CAPTURE(profile.id);
      CAPTURE(check.id);
      const auto& words = check.words;
      for (const auto* written :
           {&words.low, &words.high, &words.inside, &words.drill, &words.caution}) {
        const std::string& text = written->text;
        if (text.empty()) continue;
        CAPTURE(text);
        CHECK((text.back() == '.' || text.back() == '?'));
        CHECK(text.front() >= 'A');
        CHECK(text.front() <= 'Z');
      }
      if (loading.contains(check.rule)) CHECK(!words.caution.empty());
    }
  }
}

TEST_CASE("shipped: turns as they are commonly taught, no source") {
  for (const auto& family : full_families) {
    const auto& neutral = profile(family, "full", "neutral");
    const auto& preset = profile(family, "full", "preset");
    CAPTURE(family);
    const auto holds = [](const Profile& of, std::string_view id, double degrees) {
      const auto* check = find_check(of, id);
      REQUIRE(check != nullptr);
      const double value = Angle::degrees(degrees).in_radians();
      return distance_beyond(value, check->band) == 0;
    };
    CHECK(holds(neutral, "top/shoulder-turn", 90));
    CHECK(holds(neutral, "top/hip-turn", 45));
    CHECK(holds(neutral, "impact/hip-line-to-target", 40));
    CHECK(holds(neutral, "impact/shoulder-line-to-target", 25));
    CHECK(holds(neutral, "finish/hip-line-to-target", 90));
    // From open shoulders and hips the same top is farther away.
    CHECK(middle(preset, "top/shoulder-turn") > middle(neutral, "top/shoulder-turn"));
    CHECK(middle(preset, "top/hip-turn") > middle(neutral, "top/hip-turn"));
    CHECK(band(preset, "impact/hip-line-to-target") == band(neutral, "impact/hip-line-to-target"));
  }
  CHECK(middle(profile("wedge", "pitch", "neutral"), "top/shoulder-turn") <
        middle(profile("wedge", "full", "neutral"), "top/shoulder-turn"));
  CHECK(middle(profile("driver", "full", "neutral"), "impact/shaft-lean") <
        middle(profile("7-iron", "full", "neutral"), "impact/shaft-lean"));
  CHECK(find_check(profile("putter", "putt", "neutral"), "top/shoulder-turn") == nullptr);
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
      does_something = does_something || !fitted->changes.empty();
    }
    CHECK(does_something);
  }
  for (const auto& profile : shipped().profiles) CHECK(fit_to_student(profile, shipped(), all));
}
