// SPDX-License-Identifier: MIT
// Grades over several positions.
#include <algorithm>

#include "close.hpp"
#include "folder.hpp"
#include "grade/grade.hpp"
#include "said.hpp"

using namespace rangecheck;
using namespace rangecheck::grade;

namespace {

double radians(double degrees) { return Angle::degrees(degrees).in_radians(); }

using Where = std::optional<Position>;
using Ids = std::vector<std::string>;
constexpr double sure = 1e-4;

/// A check with the band 0 to 10 and a fade of 5, in deg, or in SI where it is no angle.
Check check(std::string_view rule, Where where, double weight = 1, Ids drives = {}) {
  const auto* found = measure::find_rule(rule);
  REQUIRE(found != nullptr);
  Check made;
  made.id = measure::check_id(rule, where);
  made.rule = rule;
  made.position = where;
  made.title = found->title;
  made.dimension = found->dimension;
  const double one = made.dimension == Dimension::angle ? radians(1) : 1;
  made.band = {0.0, 10 * one};
  made.fade_si = 5 * one;
  made.weight = weight;
  made.drives = std::move(drives);
  return made;
}

/// A value in the same units.
measure::Measurement seen(std::string_view rule, Where where, double value, double u = sure) {
  measure::Measurement one;
  one.rule = measure::find_rule(rule);
  REQUIRE(one.rule != nullptr);
  one.position = where;
  const double unit = one.rule->dimension == Dimension::angle ? radians(1) : 1;
  one.value = value * unit;
  one.standard_uncertainty = u * unit;
  return one;
}

measure::Measurement hidden(std::string_view rule, Where where) {
  auto one = seen(rule, where, 0);
  one.not_seen = measure::NotSeen{as_written("too wide"), as_written("film closer")};
  return one;
}

Fitted fitted(std::vector<Check> checks) {
  Fitted made;
  made.profile.checks = std::move(checks);
  return made;
}

Ids worked_on(const Grade& grade) {
  Ids out;
  for (const auto index : grade.work_on) out.push_back(grade.results[index].check.id);
  return out;
}

const PositionNotFound no_finish{Position::finish, as_written("the film ends before the finish"),
                                 as_written("film until you stand still again")};

}  // namespace

TEST_CASE("swing: a grade worked out by hand, two positions seen and a third not found") {
  const auto profile =
      fitted({check("forward-bend", Position::address, 2), check("side-bend", Position::address, 1),
              check("shoulder-turn", Position::top, 3), check("hip-turn", Position::top, 1),
              check("forward-bend", Position::finish, 5), check("tempo-ratio", std::nullopt, 1)});
  const measure::Measurement measured[] = {
      seen("forward-bend", Position::address, 5),       // inside: 1
      seen("side-bend", Position::address, 14),         // 4 of 5 beyond: 0.2
      seen("shoulder-turn", Position::top, -2.5, 0.5),  // half a fade: 0.5, ± 0.1
      hidden("hip-turn", Position::top),                //
      seen("tempo-ratio", std::nullopt, 3)};            // inside: 1
  const auto grade = grade::grade(profile, measured, {}, std::span(&no_finish, 1));
  // (2 · 1 + 1 · 0.2 + 3 · 0.5 + 1 · 1) / 7 of what was seen; 7 of 8 were.
  REQUIRE(grade.percent);
  CHECK_CLOSE(*grade.percent, 100 * 4.7 / 7, 1e-3);
  CHECK_CLOSE(grade.percent_uncertainty, 100 * 3 * 0.1 / 7, 1e-2);
  CHECK_CLOSE(grade.seen_share, 7.0 / 8, 1e-12);

  REQUIRE(grade.positions.size() == 3);
  CHECK(grade.positions[0].position == Position::address);
  CHECK_CLOSE(*grade.positions[0].percent, 100 * 2.2 / 3, 1e-3);
  CHECK_CLOSE(grade.positions[0].seen_share, 1, 1e-12);
  CHECK(grade.positions[1].position == Position::top);
  CHECK_CLOSE(*grade.positions[1].percent, 50, 1e-3);
  CHECK_CLOSE(grade.positions[1].percent_uncertainty, 10, 1e-1);
  CHECK_CLOSE(grade.positions[1].seen_share, 0.75, 1e-12);
  CHECK(!grade.positions[2].position);
  CHECK_CLOSE(*grade.positions[2].percent, 100, 1e-6);

  CHECK(grade.results[0].verdict == Verdict::inside);
  CHECK(grade.results[1].verdict == Verdict::high);
  CHECK(grade.results[2].verdict == Verdict::low);
  CHECK(grade.results[3].verdict == Verdict::not_seen);
  CHECK(grade.results[3].reason == "too wide");
  CHECK(grade.results[4].check.id == "finish/forward-bend");
  CHECK(grade.results[4].verdict == Verdict::not_seen);
  CHECK(grade.results[4].reason == "the film ends before the finish");
  CHECK(grade.results[4].remedy == "film until you stand still again");
  REQUIRE(grade.not_found.size() == 1);
  CHECK(grade.not_found[0].position == Position::finish);
}

TEST_CASE("swing: films that show address alone keep the grade that address has") {
  auto address = fitted({check("forward-bend", Position::address, 2, {"impact/forward-bend"}),
                         check("side-bend", Position::address, 3)});
  auto whole = address;
  for (auto more :
       {check("shoulder-turn", Position::top, 9), check("forward-bend", Position::impact, 9),
        check("tempo-ratio", std::nullopt, 9), check("chest-after-pelvis", std::nullopt, 9)})
    whole.profile.checks.push_back(more);
  whole.switched_off["top/shoulder-turn"] = "x";
  const auto change = [&](std::size_t index) {
    return Change{.check = whole.profile.checks[index],
                  .from = std::nullopt,
                  .limit = "stiff",
                  .because = "x",
                  .whose = "stiff"};
  };
  whole.changes = {change(2), change(1)};
  const measure::Measurement measured[] = {seen("forward-bend", Position::address, 13, 1),
                                           hidden("side-bend", Position::address)};
  address.profile.least_seen_share = whole.profile.least_seen_share = 0.4;
  const PositionNotFound all[] = {
      {Position::top, as_written("cut off"), as_written("film it all")},
      {Position::impact, as_written("cut off"), as_written("film it all")},
      {Position::finish, as_written("cut off"), as_written("film it all")}};
  const auto before = grade::grade(address, measured, {});
  for (const auto not_found : {std::span<const PositionNotFound>(all), {}}) {
    const auto now = grade::grade(whole, measured, {}, not_found);
    CHECK_CLOSE(*now.percent, *before.percent, 0);
    CHECK_CLOSE(now.percent_uncertainty, before.percent_uncertainty, 0);
    CHECK_CLOSE(now.seen_share, before.seen_share, 0);
    CHECK(worked_on(now) == Ids{"forward-bend"});
    REQUIRE(now.positions.size() == 1);
    CHECK(now.positions[0].position == Position::address);
    // Of a position that nothing shows nothing is told but that.
    REQUIRE(now.changes.size() == 1);
    CHECK(to_string(now.changes[0]) == "side-bend: not judged (stiff: x)");
    CHECK(now.results[2].verdict == Verdict::not_seen);
    CHECK(now.results[2].reason == (not_found.empty() ? "not measured" : "cut off"));
    CHECK(now.results[4].reason == (not_found.empty() ? "not measured" : "cut off"));
  }
  // The profile has no check at the finish.
  CHECK(grade::grade(whole, measured, {}, all).not_found.size() == 2);
}

TEST_CASE(
    "swing: a time says itself why it is not seen, and counts where all positions are found") {
  const auto profile =
      fitted({check("forward-bend", Position::address), check("forward-bend", Position::top),
              check("forward-bend", Position::impact), check("tempo-ratio", std::nullopt)});
  const measure::Measurement measured[] = {
      seen("forward-bend", Position::address, 5), seen("forward-bend", Position::top, 5),
      seen("forward-bend", Position::impact, 5), hidden("tempo-ratio", std::nullopt)};
  auto grade = grade::grade(profile, measured, {});
  CHECK(grade.results[3].reason == "too wide");
  CHECK_CLOSE(grade.seen_share, 0.75, 1e-12);
  CHECK(!grade.positions[3].percent);

  const PositionNotFound no_impact{Position::impact, as_written("cut off"), {}};
  const measure::Measurement shorter[] = {measured[0], measured[1], measured[3]};
  grade = grade::grade(profile, shorter, {}, std::span(&no_impact, 1));
  CHECK(grade.results[3].reason == "too wide");
  CHECK_CLOSE(grade.seen_share, 1, 1e-12);
  CHECK(grade.positions.size() == 2);
}

TEST_CASE("swing: a later position of which too little is seen leaves the whole alone") {
  const auto profile =
      fitted({check("forward-bend", Position::address, 2), check("hip-turn", Position::top, 2),
              check("separation", Position::top, 5), check("side-bend", Position::address, 1)});
  measure::Measurement measured[] = {
      seen("forward-bend", Position::address, 5), seen("hip-turn", Position::top, 20),
      hidden("separation", Position::top), hidden("side-bend", Position::address)};
  auto grade = grade::grade(profile, measured, {});
  CHECK_CLOSE(*grade.percent, 100, 1e-6);
  CHECK_CLOSE(grade.seen_share, 2.0 / 3, 1e-12);
  REQUIRE(grade.positions.size() == 2);
  CHECK(!grade.positions[1].percent);
  CHECK_CLOSE(grade.positions[1].seen_share, 2.0 / 7, 1e-12);
  // What is surely outside may be worked on all the same.
  CHECK(grade.results[1].verdict == Verdict::high);
  CHECK(worked_on(grade) == Ids{"top/hip-turn"});

  // Address is never left out: without it there is no grade.
  measured[0] = hidden("forward-bend", Position::address);
  measured[2] = seen("separation", Position::top, 5);
  grade = grade::grade(profile, measured, {});
  CHECK_CLOSE(grade.seen_share, 7.0 / 10, 1e-12);
  CHECK(!grade.positions[0].percent);
  CHECK(grade.percent);
}

TEST_CASE("swing: the same rule at two positions is two measurements") {
  const auto profile =
      fitted({check("forward-bend", Position::address), check("forward-bend", Position::impact)});
  const measure::Measurement measured[] = {seen("forward-bend", Position::impact, 12),
                                           seen("forward-bend", Position::address, 5)};
  const auto grade = grade::grade(profile, measured, {});
  CHECK_CLOSE(*grade.results[0].value_si, radians(5), 1e-12);
  CHECK_CLOSE(*grade.results[1].value_si, radians(12), 1e-12);
}

TEST_CASE("swing: a stance fault outranks the impact fault that it causes") {
  const auto profile = fitted({check("stance-line", Position::address, 1, {"top/hip-turn"}),
                               check("hip-turn", Position::top, 1, {"impact/hip-line-to-target"}),
                               check("hip-line-to-target", Position::impact, 2)});
  const measure::Measurement measured[] = {seen("stance-line", Position::address, 12),
                                           hidden("hip-turn", Position::top),
                                           seen("hip-line-to-target", Position::impact, 25)};
  CHECK(worked_on(grade::grade(profile, measured, {})) ==
        Ids{"stance-line", "impact/hip-line-to-target"});
}

TEST_CASE("swing: of two that are equally urgent the earlier comes first, then the lower") {
  const auto profile = fitted({check("hip-line-to-target", Position::impact),
                               check("shoulder-line-to-target", Position::impact),
                               check("forward-bend", Position::finish)});
  const measure::Measurement measured[] = {seen("forward-bend", Position::finish, 15),
                                           seen("shoulder-line-to-target", Position::impact, 15),
                                           seen("hip-line-to-target", Position::impact, 15)};
  CHECK(worked_on(grade::grade(profile, measured, {})) ==
        Ids{"impact/hip-line-to-target", "impact/shoulder-line-to-target", "finish/forward-bend"});
}

TEST_CASE("observed: a person's number at a position, by its name or p-number") {
  const auto profile =
      fitted({check("forward-bend", Position::address), check("shoulder-turn", Position::top),
              check("backswing-time", std::nullopt)});
  const measure::Measurement measured[] = {seen("forward-bend", Position::address, 5)};
  for (const char* key : {"top/shoulder-turn", "p4/shoulder-turn"}) {
    intake::Submission submission;
    submission.observed[key] = "27 deg";
    submission.observed["address/forward-bend"] = "5 deg";
    submission.observed["backswing-time"] = "12 s";
    const auto grade = grade::grade(profile, measured, submission);
    CHECK(grade.results[1].verdict == Verdict::high);
    CHECK_CLOSE(*grade.results[1].value_si, radians(27), 1e-12);
    CHECK(grade.results[2].note ==
          "read by a person, not measured; trusted to 0.1 s (common practice, no source)");
    CHECK(grade.notes.empty());
    CHECK_CLOSE(grade.seen_share, 1, 0);
    REQUIRE(grade.percent);
    CHECK_CLOSE(*grade.percent, 100 * (1 + 0 + 0.6) / 3, 0.1);
  }
  intake::Submission submission;
  submission.observed["tops/shoulder-turn"] = "27 deg";
  CHECK(in_english(grade::grade(profile, measured, submission).notes) ==
        Ids{"observed \"tops/shoulder-turn\" is no check of this profile "
            "(did you mean top/shoulder-turn?)"});
}
