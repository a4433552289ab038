// SPDX-License-Identifier: MIT
// The sample inbox, from its files to the measures, against the truth that lies beside it.
#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "close.hpp"
#include "posture/population.hpp"

namespace rangecheck {
namespace {

const std::filesystem::path samples_folder =
    std::filesystem::path(RANGECHECK_SOURCE_DIR) / "samples";

samples::Points truth_of(const std::string& submission) {
  std::ifstream file(samples_folder / "truth" / (submission + ".json"));
  REQUIRE(file);
  return test::points_of(nlohmann::json::parse(file)["joints_m"]);
}

}  // namespace

TEST_CASE("the sample inbox is measured as its truth says") {
  const auto roster = intake::read_roster(samples_folder / "roster.csv");
  REQUIRE(roster);
  const auto locations = intake::find_submissions(samples_folder / "inbox");
  REQUIRE(locations);
  test::Population population;
  int unreadable = 0;
  for (const auto& location : *locations) {
    const auto submission = intake::read_submission(location, *roster);
    if (!submission) {
      ++unreadable;
      continue;
    }
    CAPTURE(location.id);
    test::hold(posture::estimate_address(test::evidence_of(*submission)), truth_of(location.id),
               population);
  }
  MESSAGE(test::table(population));
  CHECK(unreadable == 2);  // one file cut short, one misspelt key
  CHECK(population.golfers == 25);
  CHECK(population.refused == 2);  // a face-on film named down-the-line, one without an address
  const auto all = population.all();
  CHECK(all.seen >= 300);
  CHECK(all.coverage() >= 0.92);
  CHECK(population.of("stance-width").rms() <= 0.9);
  CHECK(population.of("forward-bend").rms() <= 3.0);
}

}  // namespace rangecheck
