// SPDX-License-Identifier: MIT
#include "grade/model.hpp"

#include <cmath>

#include "folder.hpp"
#include "grade/lint.hpp"

namespace rangecheck::grade {
namespace {

const std::string words = ", low: Low., high: High., drill: Drill. }\n";

/// A folder with a profile that has one check of each kind that matters.
struct BaseFolder : Folder {
  BaseFolder() {
    write("iron.yaml",
          head + "checks:\n  stance-width: { target: 14..15 in, fade: 2 in" + words +
              "  lead-knee-flexion: { target: 15..27 deg, fade: 8 deg" + words +
              "positions:\n  top:\n    lead-elbow-flexion: { target: at-most 32 deg, fade: 15 deg" +
              words + "observed:\n  grip: { accept: [firm], outside: No., drill: Drill. }\n" +
              "readings:\n  club-path: { target: -2..2 deg, fade: 3 deg" + words);
  }
};

/// A value of `check` for each of so many golfers.
std::vector<ModelValue> values_of(const std::string& check, const std::vector<double>& si,
                                  double u_si = 0) {
  std::vector<ModelValue> out;
  for (std::size_t i = 0; i < si.size(); ++i)
    out.push_back({"s-" + std::to_string(i), check, si[i], u_si});
  return out;
}

ModelBand fitted(const Check& check, const std::vector<ModelValue>& values) {
  static Factors factors;
  return fit_band(check, values, factors);
}

double inches(double value) { return Length::inches(value).in_metres(); }

TEST_CASE("model: a band is the robust interval, rounded outward in the check's unit") {
  const BaseFolder folder;
  const auto set = folder.loaded();
  const Check& width = *find_check(set.profiles[0], "stance-width");
  std::vector<double> si;
  for (const double value : {13.0, 14.0, 14.5, 15.0, 16.0}) si.push_back(inches(value));
  const auto fit = fitted(width, values_of("stance-width", si, inches(0.3)));
  CHECK(fit.golfers == 5);
  CHECK(fit.u_si == doctest::Approx(inches(0.3)));
  const auto sample = robust_sample(si);
  CHECK(fit.factor == robust_factor(5, {}, Sides::two));
  REQUIRE(fit.band);
  const double low = (sample.middle - fit.factor * sample.spread) / inches(1);
  const double shown = *fit.band->lower_si / inches(1);
  CHECK(shown <= low);
  CHECK(low - shown < 0.1);
  CHECK(std::abs(shown * 10 - std::round(shown * 10)) < 1e-6);
}

TEST_CASE("model: a golfer's several films count once, by their median") {
  const BaseFolder folder;
  const auto set = folder.loaded();
  const Check& width = *find_check(set.profiles[0], "stance-width");
  auto values = values_of("stance-width", {0.33, 0.34, 0.35, 0.36, 0.37});
  const auto once = fitted(width, values);
  // The first one's 0.33 becomes the median of 0.2, 0.33 and 0.9.
  values.push_back({"s-0", "stance-width", 0.2, 0});
  values.push_back({"s-0", "stance-width", 0.9, 0});
  const auto again = fitted(width, values);
  CHECK(again.golfers == 5);
  CHECK(*again.band == *once.band);
}

TEST_CASE("model: too few golfers, or all alike, have no band") {
  const BaseFolder folder;
  const auto set = folder.loaded();
  const Check& width = *find_check(set.profiles[0], "stance-width");
  CHECK_FALSE(fitted(width, values_of("stance-width", {0.3, 0.31, 0.32, 0.33})).band);
  CHECK_FALSE(fitted(width, values_of("stance-width", {0.3, 0.3, 0.3, 0.3, 0.3})).band);
  CHECK_FALSE(fitted(width, values_of("other", {0.3, 0.31, 0.32, 0.33, 0.34})).band);
}

TEST_CASE("model: sides that are open stay open, and no bend is below none") {
  const BaseFolder folder;
  const auto set = folder.loaded();
  const std::vector<double> bends = {0.1, 0.2, 0.3, 0.35, 0.5};
  const Check& elbow = *find_check(set.profiles[0], "top/lead-elbow-flexion");
  const auto one = fitted(elbow, values_of("top/lead-elbow-flexion", bends));
  REQUIRE(one.band);
  CHECK_FALSE(one.band->lower_si);
  CHECK(one.factor == robust_factor(5, {}, Sides::one));
  const Check& knee = *find_check(set.profiles[0], "lead-knee-flexion");
  const auto two = fitted(knee, values_of("lead-knee-flexion", bends));
  REQUIRE(two.band);
  CHECK_FALSE(two.band->lower_si);
  CHECK(two.factor == robust_factor(5, {}, Sides::two));
}

TEST_CASE("model: the profile reads again, with these bands and without a finding") {
  const BaseFolder folder;
  const auto set = folder.loaded();
  auto values = values_of("stance-width", {0.33, 0.34, 0.35, 0.36, 0.37, 0.38}, 0.5);
  for (const auto& value : values_of("top/lead-elbow-flexion", {0.1, 0.2, 0.3, 0.35, 0.5}))
    values.push_back(value);
  for (const auto& value : values_of("club-path", {0.01, 0.02, 0.0, -0.01, 0.03}))
    values.push_back(value);
  for (const auto& value : values_of("lead-knee-flexion", {0.1, 0.2, 0.3, 0.35}))
    values.push_back(value);
  const ModelProfile wanted{.id = "fitted-iron", .style = "models", .holding = {}};
  const auto text = model_profile(set.profiles[0], values, wanted);
  REQUIRE(text);
  CAPTURE(*text);
  CHECK(text->find("#   lead-knee-flexion: seen of 4: 1 more is needed\n") != std::string::npos);
  CHECK(text->find("#   grip: is judged by words\n") != std::string::npos);
  CHECK(text->find("may be all of the spread") != std::string::npos);
  folder.write("fitted.yaml", *text);
  CHECK(lint(folder.path(), {}).findings.empty());
  const auto again = folder.loaded();
  const auto mine = choose_profile(again, "7-iron", "full", "models");
  REQUIRE(mine);
  for (const auto* id : {"stance-width", "top/lead-elbow-flexion", "club-path"}) {
    CAPTURE(id);
    const Check& check = *find_check(set.profiles[0], id);
    const Band band = *fitted(check, values).band;
    const Band& read = find_check(**mine, id)->band;
    CHECK(read.lower_si.has_value() == band.lower_si.has_value());
    if (band.lower_si) CHECK(*read.lower_si == doctest::Approx(*band.lower_si).epsilon(1e-5));
    CHECK(*read.upper_si == doctest::Approx(*band.upper_si).epsilon(1e-5));
  }
  CHECK(find_check(**mine, "lead-knee-flexion")->band ==
        find_check(set.profiles[0], "lead-knee-flexion")->band);
}

TEST_CASE("model: nothing seen of enough golfers is an error") {
  const BaseFolder folder;
  const auto set = folder.loaded();
  const auto text = model_profile(set.profiles[0], values_of("stance-width", {0.3, 0.4}),
                                  {.id = "x", .style = "x", .holding = {}});
  CHECK(to_string(text.error()) ==
        "no check was seen of 5 golfers or more; there are 2 (send films of more golfers)");
}

}  // namespace
}  // namespace rangecheck::grade
