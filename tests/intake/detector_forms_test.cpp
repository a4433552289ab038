// SPDX-License-Identifier: MIT
// Detectors' own forms, and 33 points that somebody has changed: what the table of dialects does
// not show.
#include "fixture.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;

namespace {

std::string numbers(int count, const std::string& each) {
  return "[" + repeated(each, count) + "]";
}

/// 33 points {x, y, z} of somebody upright, the mid-hip at (x, y), `size` from head to toe.
std::string points_33_at(double x, double y, double size) {
  std::string list;
  for (int i = 0; i < 33; ++i) {
    const double down = i < 11 ? -0.5 : i < 23 ? -0.3 : i < 25 ? 0 : i < 27 ? 0.25 : 0.5;
    const double across = i % 2 == 0 ? -0.1 : 0.1;
    list += (i == 0 ? "[" : ",") + (R"({"x":)" + std::to_string(x + size * across)) + R"(,"y":)" +
            std::to_string(y + size * down) + R"(,"z":)" + std::to_string(0.1 * size) + "}";
  }
  return list + "]";
}

}  // namespace

TEST_CASE("instances: scores and names have to fit the points") {
  const std::string points = numbers(17, "[100,200]");
  CHECK(error_of(R"([{"frame_id":0,"instances":[{"keypoints":)" + points +
                 R"(,"keypoint_scores":[0.5]}]}])") ==
        "film.json: frame 0: /0/instances/0/keypoint_scores: has 1 scores for 17 points");
  CHECK(error_of(R"({"meta_info":{"keypoint_id2name":{"1":"nose"}},"instance_info":[{"frame_id":1,)"
                 R"("instances":[{"keypoints":)" +
                 points + R"(,"keypoint_scores":)" + numbers(17, "0.5") + "}]}]}") ==
        "film.json: /meta_info/keypoint_id2name: doesn't name point 0");
}

TEST_CASE("columns: lists beside each other have to be as long") {
  CHECK(error_of(R"([[{"keypoints":{"x":)" + numbers(17, "1") + R"(,"y":)" + numbers(16, "2") +
                 "}}]]") ==
        "film.json: frame 0: /0/0/keypoints/y: has 16 numbers where the lists beside it have 17");
}

TEST_CASE("rows of 58 numbers are told apart by their first, or are a frame each") {
  const auto row = [](int first) {
    std::string text = "[" + std::to_string(first) + ",0,100,200,50,90,0.9";
    for (int i = 0; i < 17; ++i)
      text += "," + std::to_string(100 + i) + "," + std::to_string(100 + 20 * i) + ",0.8";
    return text + "]";
  };
  const auto numbered = read("[" + row(4) + "," + row(4) + "," + row(6) + "]");
  REQUIRE(numbered);
  REQUIRE(numbered->frames.size() == 2);
  CHECK(numbered->frames[0].people.size() == 2);
  CHECK(numbered->frames[1].number == 6);
  const auto alone = read("[" + row(0) + "," + row(0) + "," + row(0) + "]");
  REQUIRE(alone);
  CHECK(alone->frames.size() == 3);
}

TEST_CASE("people by track: y comes before x, and a frame may be empty") {
  const auto film = read(R"({"keypoints":[{},{"12":)" + numbers(25, "[700,300,0.9]") + "}]}");
  REQUIRE(film);
  REQUIRE(film->frames.size() == 2);
  CHECK(film->frames[0].people.empty());
  const Person& person = person_in(*film, 1);
  CHECK(person.track == 12);
  CHECK(person.image[lead(Joint::heel)]->at.x_px == 300);
  CHECK(person.image[lead(Joint::heel)]->at.y_px == 700);
}

TEST_CASE("33 points that were multiplied are refused, pixels and fractions are not") {
  const char* neither =
      "which are neither pixels nor fractions of the picture nor metres (export "
      "the points as the estimator gives them, not multiplied or moved)";
  const struct {
    const char* what;
    double x, y, size;
    bool good;
  } cases[] = {
      {"fractions", 0.5, 0.5, 0.6, true},
      {"pixels", 500, 900, 1100, true},
      {"fractions of 100", 50, 50, 60, false},
      {"fractions of -100", -50, -50, 60, false},
      {"centimetres about the hips", 0, 0, 170, false},
      {"fractions beyond the edge", 1.1, 0.8, 0.9, true},
  };
  for (const auto& one : cases) {
    CAPTURE(one.what);
    const auto film = read("[" + points_33_at(one.x, one.y, one.size) + "]");
    CHECK(bool(film) == one.good);
    if (!film) CHECK(to_string(film.error()).find(neither) != std::string::npos);
  }
}

TEST_CASE("a column for each point: as many entries in each, null for nobody") {
  std::string columns;
  for (const char* name : {"NOSE", "LEFT_SHOULDER", "RIGHT_SHOULDER", "LEFT_HIP", "RIGHT_HIP",
                           "LEFT_KNEE", "RIGHT_KNEE", "LEFT_FOOT_INDEX"}) {
    columns += (columns.empty() ? "\"" : ",\"") + std::string(name) +
               R"(":[null,{"x":0.5,"y":0.25,"z":0,"visibility":0.9}])";
  }
  const std::string head = R"({"width":800,"height":600,"fps":60,"frames":2,"landmarks":{)";
  const auto film = read(head + columns + "}}", std::nullopt);
  REQUIRE(film);
  CHECK(film->frame_rate_hz == 60);
  CHECK(film->image->width_px == 800);
  CHECK(film->estimator == Estimator::points_33);
  REQUIRE(film->frames.size() == 2);
  CHECK(film->frames[0].people.empty());
  CHECK(x_of(person_in(*film, 1), lead(Joint::hip)) == 400);
  CHECK(error_of(head + columns + R"(,"LEFT_HEEL":[null]}})") ==
        "film.json: /landmarks/LEFT_HEEL: has 1 points, other columns have 2");
}
