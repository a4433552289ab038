// SPDX-License-Identifier: MIT
// A whole swing from the sample inbox, from files to grade, against the truth beside it.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>

#include "night.hpp"
#include "report/report.hpp"
#include "said.hpp"

namespace rangecheck::inbox {
namespace {

namespace fs = std::filesystem;

const fs::path samples_folder = fs::path(RANGECHECK_SOURCE_DIR) / "samples";

/// A night over one submission of the sample inbox.
Whole graded_alone(const Fixture& fixture, const std::string& id) {
  fs::copy(samples_folder / "inbox" / id, fixture.folder() / "inbox" / id,
           fs::copy_options::recursive);
  auto job = fixture.job();
  job.roster = samples_folder / "roster.csv";
  auto night = run_whole(job);
  REQUIRE(night);
  REQUIRE(night->graded.size() == 1);
  return *std::move(night);
}

nlohmann::json truth_of(const std::string& id) {
  std::ifstream file(samples_folder / "truth" / (id + ".json"));
  REQUIRE(file);
  return nlohmann::json::parse(file);
}

const measure::Measurement& measured(const report::Graded& graded, std::string_view id,
                                     std::optional<Position> position) {
  const auto found = std::ranges::find_if(graded.measured, [&](const auto& each) {
    return each.rule->id == id && each.position == position;
  });
  REQUIRE(found != graded.measured.end());
  return *found;
}

TEST_CASE("swing: every position of a whole swing is found when it was") {
  const Fixture fixture;
  const std::string id = "s-0421-7-iron";
  const Whole night = graded_alone(fixture, id);
  const report::Graded& graded = night.graded.front();
  CHECK(graded.grade.not_found.empty());
  CHECK(graded.positions.size() == 18);  // nine later positions in each of two films
  const auto truth = truth_of(id)["swing"]["times_s"];
  for (const auto& seen : graded.positions) {
    CAPTURE(id_of(seen.position));
    const double true_s =
        truth[std::string(intake::name_of(seen.view))][std::string(id_of(seen.position))];
    CHECK(std::abs(seen.time_s - true_s) < 3 * seen.standard_uncertainty_s);
    CHECK(seen.standard_uncertainty_s < 0.12);
  }
  REQUIRE(graded.grade.percent);
  CHECK(graded.grade.positions.size() == 11);  // ten, and the whole swing
}

TEST_CASE("swing: tempo is that of the golfer") {
  const Fixture fixture;
  const std::string id = "s-0421-7-iron";
  const Whole night = graded_alone(fixture, id);
  const auto truth = truth_of(id)["swing"]["times_s"]["face-on"];
  const double back_s = truth["top"].get<double>() - truth["address"].get<double>();
  const double down_s = truth["impact"].get<double>() - truth["top"].get<double>();
  const auto& ratio = measured(night.graded.front(), "tempo-ratio", std::nullopt);
  REQUIRE(ratio.value);
  CHECK_FALSE(ratio.not_seen);
  CHECK(std::abs(*ratio.value - back_s / down_s) < 2.5 * ratio.standard_uncertainty);
}

TEST_CASE("swing: a coach's own measures outlive the profiles that they came with") {
  const Fixture fixture;
  const Whole night = graded_alone(fixture, "s-0421-7-iron");
  const auto& own = measured(night.graded.front(), "knee-gap", Position::top);
  CHECK(own.rule->title == "Gap between the knees against the ankles");
  const auto document = nlohmann::json::parse(report::result_json(night.graded.front()));
  const auto& measurements = document["measurements"];
  CHECK(std::ranges::any_of(measurements, [](const auto& each) {
    return each["id"] == "top/knee-gap" && each["rule"] == "knee-gap";
  }));
}

TEST_CASE("swing: a film of the address alone says which positions it does not show") {
  const Fixture fixture;
  const Whole night = graded_alone(fixture, "s-0403-7-iron");
  const auto& grade = night.graded.front().grade;
  CHECK(grade.not_found.size() == 9);
  CHECK(grade.not_found.front().reason == "no swing was found in the film");
  CHECK(grade.positions.size() <= 2);
  CHECK(night.graded.front().positions.empty());
}

TEST_CASE("swing: a film that begins in mid-swing is set aside with what to do") {
  const Fixture fixture;
  fs::copy(samples_folder / "inbox" / "s-0424-7-iron", fixture.folder() / "inbox" / "s-0424-7-iron",
           fs::copy_options::recursive);
  auto job = fixture.job();
  job.roster = samples_folder / "roster.csv";
  const auto night = run(job);
  REQUIRE(night);
  REQUIRE(night->set_aside.size() == 1);
  CHECK(to_string(night->set_aside.front().error).find("hold the address") != std::string::npos);
}

}  // namespace
}  // namespace rangecheck::inbox
