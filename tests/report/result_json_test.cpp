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

TEST_CASE("one line when asked for") {
  const auto line = result_json(example_graded(), std::nullopt);
  CHECK(line.find('\n') == line.size() - 1);
  CHECK(json::parse(line) == json::parse(result_json(example_graded())));
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
