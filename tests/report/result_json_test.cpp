// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <limits>
#include <nlohmann/json.hpp>

#include "close.hpp"
#include "example.hpp"

namespace rangecheck::report {
namespace {

using nlohmann::json;

TEST_CASE("the document says its form and version") {
  const auto document = json::parse(result_json(example_graded()));
  CHECK(document["format"] == "rangecheck-result");
  CHECK(document["version"] == 1);
}

TEST_CASE("lengths are in metres and angles in degrees, each with its unit") {
  const auto document = json::parse(result_json(example_graded()));
  const auto& length = document["checks"][0];
  CHECK(length["unit"] == "m");
  CHECK_CLOSE(length["value"].get<double>(), 0.2794, 1e-12);
  CHECK_CLOSE(length["interval_95"]["low"].get<double>(), 0.2794 - 1.959964 * 0.0127, 1e-9);
  const auto& angle = document["checks"][1];
  CHECK(angle["unit"] == "deg");
  CHECK_CLOSE(angle["value"].get<double>(), 21, 1e-9);
  CHECK(angle["band"]["lower"].is_null());
}

TEST_CASE("a check that was not seen has no value, a measurement keeps its own with seen false") {
  const auto document = json::parse(result_json(example_graded()));
  CHECK(document["checks"][2]["value"].is_null());
  CHECK(document["checks"][2]["score"].is_null());
  CHECK(document["measurements"][0]["seen"] == true);
  const auto unseen = json::parse(result_json(example_without_grade()));
  CHECK(unseen["measurements"][0]["seen"] == false);
  CHECK(unseen["measurements"][0]["interval_95"].is_null());
  CHECK(unseen["grade"]["percent"].is_null());
}

TEST_CASE("what is no number and what is no UTF-8 still makes a document") {
  Graded graded = example_without_grade();
  graded.grade.seen_share = std::numeric_limits<double>::quiet_NaN();
  const auto document = json::parse(result_json(graded));
  CHECK(document["grade"]["seen_share"].is_null());
  CHECK(document["student"]["name"] == "\xef\xbf\xbd\xef\xbf\xbd");
}

TEST_CASE("how far an estimator's own points in space lie from the films") {
  const auto document = json::parse(result_json(example_graded()));
  CHECK(document["evidence"]["space_agreement"] == json::array({{{"view", "face-on"},
                                                                 {"rms_across_m", 0.06},
                                                                 {"rms_depth_m", 0.08},
                                                                 {"rms_in_uncertainties", 1.5},
                                                                 {"mirror_image", false},
                                                                 {"joints", 21}}}));
}

TEST_CASE("one line when asked for") {
  const auto line = result_json(example_graded(), std::nullopt);
  CHECK(line.find('\n') == line.size() - 1);
  CHECK(json::parse(line) == json::parse(result_json(example_graded())));
}

TEST_CASE("checks and measurements say where in the swing, times that they are of the whole") {
  const auto document = json::parse(result_json(example_swing()));
  const auto& shift = document["checks"][8];
  CHECK(shift["id"] == "top/pelvis-shift");
  CHECK(shift["rule"] == "pelvis-shift");
  CHECK(shift["position"] == "top");
  CHECK(shift["region"] == "hips");
  CHECK(document["checks"][0]["position"] == "address");
  const auto& time = document["checks"][19];
  CHECK(time["position"].is_null());
  CHECK(time["unit"] == "s");
  CHECK_CLOSE(time["value"].get<double>(), 0.6, 1e-12);
  const auto& measurements = document["measurements"];
  CHECK(measurements[0]["position"] == "address");
  CHECK(measurements[1]["id"] == "top/pelvis-shift");
  CHECK(measurements[1]["position"] == "top");
  CHECK(measurements[2]["position"].is_null());
  CHECK(measurements[2]["prior_uncertainty"].is_null());
}

TEST_CASE("when each film passed each position, how each went and which were not found") {
  const auto document = json::parse(result_json(example_swing()));
  CHECK(document["positions"][1] == json{{"position", "top"},
                                         {"view", "face-on"},
                                         {"time_s", 1.304},
                                         {"standard_uncertainty_s", 0.008},
                                         {"frame", 39},
                                         {"from", "hands"}});
  CHECK(document["positions"][2]["view"] == "down-the-line");
  CHECK(document["positions"][2]["from"] == "club");
  const auto& grades = document["position_grades"];
  REQUIRE(grades.size() == 6);
  CHECK(grades[1] == json{{"position", "lead-arm-parallel-back"},
                          {"percent", nullptr},
                          {"standard_uncertainty", nullptr},
                          {"seen_share", 0.3}});
  CHECK(grades[2]["percent"] == 48);
  CHECK(grades[2]["standard_uncertainty"] == 6);
  CHECK(grades[5]["position"].is_null());
  CHECK(document["not_found"][1] ==
        json{{"position", "shaft-parallel-down"},
             {"reason", "the landmark files have no points of the club"},
             {"remedy", "Film with the whole club in frame and add its points."}});
}

TEST_CASE("a submission set aside says where the fault is") {
  const auto document = json::parse(set_aside_json(example_set_aside()));
  CHECK(document["fault"] == "unreadable");
  CHECK(document["file"] == "s-0500/face-on.json");
  CHECK(document["frame"] == 3);
  CHECK(document["line"].is_null());
}

}  // namespace
}  // namespace rangecheck::report
