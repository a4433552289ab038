// SPDX-License-Identifier: MIT
// Documents as JSON Lines, and what can be wrong with their text.
#include "fixture.hpp"
#include "intake/value.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;

namespace {

Value root_of(const Document& document) { return document.root(); }

std::string frame(int first) {
  return R"({"people": [{"pose_keypoints_2d": [)" + triples(17, first) + "]}]}";
}

}  // namespace

TEST_CASE("JSON Lines: any form, a line a frame") {
  const auto film = read("\n" + frame(100) + "\r\n\n" + frame(200) + "\n");
  REQUIRE(film);
  REQUIRE(film->frames.size() == 2);
  CHECK(x_of(person_in(*film, 1), centre(Joint::nose)) == 200);
  CHECK(error_of(frame(100) + "\n{\"people\": [\n") ==
        "film.json:2: is cut short: the JSON in it doesn't end (send the file again)");
  CHECK(error_of(frame(100) + "\n\n" + frame(200) + "]\n") == "film.json:3: isn't valid JSON");
}

TEST_CASE("a byte-order mark and tokens that are no numbers are read over") {
  const Document document("\xEF\xBB\xBF[NaN, -Infinity, \"NaN \\\" NaN\", {\"a\": Infinity}]",
                          Spot("x"));
  const Value list = root_of(document);
  CHECK(list.size() == 4);
  CHECK(list.at(0)->kind() == Kind::null);
  CHECK(list.at(1)->kind() == Kind::null);
  CHECK(list.at(2)->text() == "NaN \" NaN");
  CHECK(list.at(3)->find("a")->kind() == Kind::null);
  CHECK_FALSE(list.at(4));
}

TEST_CASE("values: what they are, and nothing else") {
  const Document document(R"({"whole": 3.0, "part": 1.5, "big": 1e300, "text": "t", "flag": true,
      "list": [1, [2]], "none": null, "empty": {}, "negative": -7})",
                          Spot("x"));
  const Value all = root_of(document);
  CHECK(all.find("whole")->whole() == 3);
  CHECK(all.find("negative")->whole() == -7);
  CHECK_FALSE(all.find("part")->whole());
  CHECK_FALSE(all.find("big")->whole());
  CHECK_FALSE(all.find("text")->number());
  CHECK_FALSE(all.find("part")->text());
  CHECK(all.find("flag")->is_true());
  CHECK_FALSE(all.find("whole")->is_true());
  CHECK(all.find("none")->is_empty());
  CHECK(all.find("empty")->is_empty());
  CHECK_FALSE(all.find("text")->is_empty());
  CHECK_FALSE(all.find("missing"));
  CHECK_FALSE(all.find("list")->find("a"));
  CHECK_FALSE(all.front());
  std::string keys;
  for (const auto [key, value] : all.members()) keys += std::string(key) + ' ';
  CHECK(keys == "whole part big text flag list none empty negative ");
  std::size_t count = 0;
  for (const Value each : all.find("list")->list()) count += each.is_list() ? 10 : 1;
  CHECK(count == 11);
  for (const Value each : all.list()) count += each.size();
  CHECK(count == 11);
}
