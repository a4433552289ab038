// SPDX-License-Identifier: MIT
// Rules against measures that were computed elsewhere, by the same definitions, from known joints.
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <string>

#include "close.hpp"
#include "measure/address.hpp"
#include "truth.hpp"

namespace rangecheck {
namespace {

// The files give joints to 0.1 mm and measures to 0.01 in or deg.
const double rounding_u_m = 1e-4 / std::sqrt(12.0);
constexpr double measure_rounding = 0.005;

posture::Posture posture_of(const nlohmann::json& joints_m) {
  posture::Posture out;
  out.mean.resize(3 * static_cast<Eigen::Index>(joints_m.size()));
  for (const auto& [name, at] : joints_m.items()) {
    const auto id = test::truth_landmark(name);
    REQUIRE(id);
    const auto row = 3 * static_cast<Eigen::Index>(out.landmarks.size());
    out.mean.segment<3>(row) << at[0].get<double>(), at[1].get<double>(), at[2].get<double>();
    out.landmarks.push_back(*id);
  }
  return out;
}

}  // namespace

TEST_CASE("rules give the known measures of known joints") {
  const char* folder = std::getenv("RANGECHECK_REAL_FILMS");
  if (folder == nullptr) {
    MESSAGE("skipped: RANGECHECK_REAL_FILMS names no folder of films with truth.json");
    return;
  }
  int compared = 0;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    std::ifstream file(entry.path() / "truth.json");
    if (!file) continue;
    const auto truth = nlohmann::json::parse(file);
    if (!truth.contains("measures")) continue;
    auto posture = posture_of(truth["joints_m"]);
    posture.covariance = rounding_u_m * rounding_u_m *
                         Eigen::MatrixXd::Identity(posture.mean.size(), posture.mean.size());
    const std::string film = entry.path().filename().string();
    for (const auto& [key, name, inches] : test::truth_measures) {
      const std::string id = name;
      CAPTURE(film);
      CAPTURE(id);
      const auto& rule = *measure::find_rule(id);
      const auto value = rule.measure(test::points_for(rule, posture));
      REQUIRE(value);
      const auto shown = [inches = inches](double si) {
        return inches ? Length::metres(si).in_inches() : Angle::radians(si).in_degrees();
      };
      const auto rounding = measure::propagate(rule, posture, posture.covariance);
      REQUIRE(rounding);
      CHECK_CLOSE(shown(*value), truth["measures"][key].get<double>(),
                  measure_rounding + 3 * shown(rounding->standard_uncertainty));
      ++compared;
    }
  }
  CHECK(compared > 0);
}

}  // namespace rangecheck
