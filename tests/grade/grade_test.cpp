// SPDX-License-Identifier: MIT
#include "grade/grade.hpp"

#include <initializer_list>

#include "close.hpp"
#include "folder.hpp"
#include "said.hpp"

using namespace rangecheck;
using namespace rangecheck::grade;

namespace {

double radians(double degrees) { return Angle::degrees(degrees).in_radians(); }
double inches(double value) { return Length::inches(value).in_metres(); }

measure::Measurement seen(std::string_view id, double value_si, double u_si) {
  measure::Measurement one;
  one.rule = measure::find_rule(id);
  REQUIRE(one.rule != nullptr);
  one.value = value_si;
  one.standard_uncertainty = u_si;
  return one;
}

measure::Measurement hidden(std::string_view id) {
  auto one = seen(id, 0, 1);
  one.not_seen = measure::NotSeen{as_written("the feet are out of the frame"),
                                  as_written("film the whole body")};
  return one;
}

/// A check of an angle or a length with the band 0 to 10 (deg or in) and a fade of 5.
Check check(std::string_view id, double weight = 1, std::vector<std::string> drives = {}) {
  const auto* rule = measure::find_rule(id);
  REQUIRE(rule != nullptr);
  Check made;
  made.id = made.rule = id;
  made.title = rule->title;
  made.dimension = rule->dimension;
  const double one = rule->dimension == Dimension::angle ? radians(1) : inches(1);
  made.band = {0.0, 10 * one};
  made.fade_si = 5 * one;
  made.weight = weight;
  made.drives = std::move(drives);
  return made;
}

Fitted fitted(std::vector<Check> checks) {
  Fitted made;
  made.profile.id = "iron";
  made.profile.title = "Iron";
  made.profile.checks = std::move(checks);
  return made;
}

std::vector<std::string> ids(const Grade& grade) {
  std::vector<std::string> out;
  for (const auto index : grade.work_on) out.push_back(grade.results[index].check.id);
  return out;
}

using Ids = std::vector<std::string>;

/// An angle `fades` fades above its band, sure.
measure::Measurement above(std::string_view id, double fades) {
  return seen(id, radians(10 + 5 * fades), radians(0.1));
}

}  // namespace

TEST_CASE("grade: weighted mean of the scores, with its own uncertainty") {
  const auto profile = fitted({check("forward-bend", 3), check("side-bend", 1)});
  const measure::Measurement measured[] = {seen("forward-bend", radians(5), radians(0.01)),
                                           seen("side-bend", radians(12.5), radians(0.5))};
  const auto result = grade::grade(profile, measured, {});
  REQUIRE(result.percent);
  // 12.5 is half a fade outside, and u of 0.5 deg is a tenth of the fade: all on one slope.
  CHECK_CLOSE(*result.percent, 100 * (3 * 1 + 1 * 0.5) / 4, 1e-4);
  CHECK_CLOSE(result.percent_uncertainty, 100 * 0.1 / 4, 1e-3);
  CHECK_CLOSE(result.seen_share, 1, 0);
  CHECK(result.results[0].verdict == Verdict::inside);
  CHECK(result.results[1].verdict == Verdict::high);
  CHECK(result.profile_id == "iron");
  CHECK(result.profile_title == "Iron");
}

TEST_CASE("grade: none when too little was seen, and nothing to work on but filming again") {
  auto profile = fitted({check("forward-bend", 1), check("side-bend", 2)});
  const measure::Measurement measured[] = {above("forward-bend", 1), hidden("side-bend")};
  const auto result = grade::grade(profile, measured, {});
  CHECK(!result.percent);
  CHECK_CLOSE(result.seen_share, 1.0 / 3, 1e-12);
  CHECK(result.results[1].verdict == Verdict::not_seen);
  CHECK(result.results[1].reason == "the feet are out of the frame");
  CHECK(result.results[1].remedy == "film the whole body");
  CHECK(!result.results[1].value_si);
  CHECK(result.work_on.empty());

  profile.profile.least_seen_share = 0.3;
  CHECK(grade::grade(profile, measured, {}).percent);
  profile.profile.least_seen_share = 0;
  CHECK(!grade::grade(profile, {}, {}).percent);  // nothing at all was seen
}

TEST_CASE("grade: what is switched off counts neither way") {
  auto profile = fitted({check("forward-bend", 1), check("side-bend", 9)});
  profile.switched_off["side-bend"] = "stiff lower back: comfort first";
  const measure::Measurement measured[] = {seen("forward-bend", radians(5), radians(0.1)),
                                           above("side-bend", 2)};
  const auto result = grade::grade(profile, measured, {});
  CHECK(result.results[1].verdict == Verdict::switched_off);
  CHECK(result.results[1].reason == "stiff lower back: comfort first");
  CHECK_CLOSE(*result.percent, 100, 1e-6);
  CHECK_CLOSE(result.seen_share, 1, 0);
  CHECK(result.work_on.empty());
}

TEST_CASE("grade: a wide value is unsure and never worked on") {
  const auto profile = fitted({check("forward-bend")});
  const measure::Measurement measured[] = {seen("forward-bend", radians(12), radians(5))};
  const auto result = grade::grade(profile, measured, {});
  CHECK(result.results[0].verdict == Verdict::unsure);
  CHECK(result.percent);
  CHECK(result.work_on.empty());
}

TEST_CASE("grade: categories of a measure come along") {
  const auto profile = fitted({check("trail-knee-inset")});
  const auto category = [&](double in) {
    const measure::Measurement measured[] = {seen("trail-knee-inset", inches(in), inches(0.1))};
    return grade::grade(profile, measured, {}).results[0].category;
  };
  CHECK(category(-9) == "outside");
  CHECK(category(0) == "over");
  CHECK(category(9) == "inside");
}

TEST_CASE("work on: a stance fault comes before the shoulder fault it drives") {
  const auto profile = fitted({check("stance-line", 1, {"hip-line-to-stance"}),
                               check("hip-line-to-stance", 1, {"shoulder-line-to-stance"}),
                               check("shoulder-line-to-stance", 2), check("side-bend", 1)});
  // The shoulders are farther out and weigh more; the hips between were not seen.
  const measure::Measurement measured[] = {above("stance-line", 0.3),
                                           above("shoulder-line-to-stance", 2)};
  CHECK(ids(grade::grade(profile, measured, {})) == Ids{"stance-line", "shoulder-line-to-stance"});

  // Hips that are surely right break the chain: the shoulders are a fault of their own.
  const measure::Measurement hips_right[] = {above("stance-line", 0.3),
                                             seen("hip-line-to-stance", radians(5), radians(0.1)),
                                             above("shoulder-line-to-stance", 2)};
  CHECK(ids(grade::grade(profile, hips_right, {})) ==
        Ids{"shoulder-line-to-stance", "stance-line"});
}

TEST_CASE("work on: severity times weight times what is driven, three at the most") {
  const auto profile =
      fitted({check("stance-line", 1, {"hip-line-to-stance"}), check("hip-line-to-stance", 1),
              check("forward-bend", 1), check("side-bend", 0), check("shoulder-tilt", 1)});
  const measure::Measurement measured[] = {
      above("stance-line", 0.5), above("hip-line-to-stance", 0.4), above("forward-bend", 0.9),
      above("side-bend", 2), above("shoulder-tilt", 0.45)};
  // 0.5 · 1 · (1 + 1) = 1.0 beats 0.9; a weight of 0 is only watched.
  CHECK(ids(grade::grade(profile, measured, {})) ==
        Ids{"stance-line", "forward-bend", "shoulder-tilt"});
}

TEST_CASE("work on: farther out than two fades is no more urgent") {
  const auto profile = fitted({check("forward-bend", 1.1), check("side-bend", 1)});
  const measure::Measurement measured[] = {above("forward-bend", 2.1), above("side-bend", 10)};
  CHECK(ids(grade::grade(profile, measured, {})) == Ids{"forward-bend", "side-bend"});
}

TEST_CASE("observed: words are accepted or not, in any spelling") {
  Check thumb;
  thumb.id = thumb.rule = "lead-thumb";
  thumb.subject = Subject::observed;
  thumb.position = std::nullopt;
  thumb.accept = {"trail-side"};
  const auto profile = fitted({thumb, check("forward-bend")});
  const measure::Measurement measured[] = {seen("forward-bend", radians(5), radians(0.1))};
  intake::Submission submission;
  submission.observed["lead-thumb"] = "Trail Side";
  auto result = grade::grade(profile, measured, submission);
  CHECK(result.results[0].verdict == Verdict::inside);
  CHECK(result.results[0].word == "Trail Side");
  CHECK_CLOSE(*result.percent, 100, 1e-6);

  submission.observed["lead-thumb"] = "on top";
  result = grade::grade(profile, measured, submission);
  CHECK(result.results[0].verdict == Verdict::outside_words);
  CHECK_CLOSE(*result.percent, 50, 1e-6);
  CHECK(ids(result) == Ids{"lead-thumb"});

  result = grade::grade(profile, measured, {});
  CHECK(result.results[0].verdict == Verdict::not_seen);
  CHECK(result.results[0].reason == "nobody noted it");
  CHECK(result.results[0].remedy ==
        "note lead-thumb under observed, as one of: trail-side, or other words");
}

TEST_CASE("observed: a word that no check asks for is mentioned") {
  intake::Submission submission;
  submission.observed["forwardbend"] = "a lot";
  const auto result = grade::grade(fitted({check("forward-bend")}), {}, submission);
  CHECK(in_english(result.notes) ==
        Ids{"observed \"forwardbend\" is no check of this profile (did you mean forward-bend?)"});
}

TEST_CASE("observed: a person's number stands in for a measure that no film shows") {
  const auto profile = fitted({check("lead-palm-turn")});
  intake::Submission submission;
  submission.observed["lead-palm-turn"] = "27 deg";
  const measure::Measurement unseen[] = {hidden("lead-palm-turn")};
  auto result = grade::grade(profile, unseen, submission).results[0];
  CHECK(result.verdict == Verdict::high);
  CHECK_CLOSE(*result.value_si, radians(27), 1e-12);
  CHECK_CLOSE(result.standard_uncertainty_si, radians(5), 1e-12);
  CHECK(result.note ==
        "read by a person, not measured; trusted to 5 deg (common practice, no source)");
  CHECK(result.reason == "");

  // A film that shows it counts for more.
  const measure::Measurement film[] = {seen("lead-palm-turn", radians(5), radians(1))};
  result = grade::grade(profile, film, submission).results[0];
  CHECK(result.verdict == Verdict::inside);
  CHECK(result.note == "");

  submission.observed["lead-palm-turn"] = "a lot";
  result = grade::grade(profile, unseen, submission).results[0];
  CHECK(result.verdict == Verdict::not_seen);
  CHECK(result.reason == "observed: \"a lot\" isn't an angle");
}

TEST_CASE("readings: face, path and the start direction that follows") {
  const auto reading = [](std::string_view id) {
    Check made;
    made.id = made.rule = id;
    made.subject = Subject::reading;
    made.position = std::nullopt;
    made.band = {radians(-10), radians(10)};
    made.fade_si = radians(2);
    return made;
  };
  const auto profile =
      fitted({reading("face-to-target"), reading("club-path"), reading("start-direction")});
  intake::Submission submission;
  submission.readings["face-to-target"] = Quantity::of(Angle::degrees(1.5));
  auto result = grade::grade(profile, {}, submission);
  CHECK(result.results[0].verdict == Verdict::inside);
  CHECK_CLOSE(result.results[0].standard_uncertainty_si, radians(0.5), 1e-12);  // from memory
  CHECK(result.results[1].verdict == Verdict::not_seen);
  CHECK(result.results[1].remedy == "send club-path from a launch monitor");
  CHECK(result.results[2].verdict == Verdict::not_seen);
  CHECK(result.results[2].reason == "needs the readings of face and path");

  submission.readings["club-path"] = Quantity::of(Angle::degrees(3.5));
  result = grade::grade(profile, {}, submission);
  // Between the splits 0.61 and 0.83 (Wood, Henrikson & Broadie 2018): 1.84 to 2.28 deg.
  REQUIRE(result.results[2].value_si);
  CHECK(*result.results[2].value_si >= radians(1.84));
  CHECK(*result.results[2].value_si <= radians(2.28));
}
