// SPDX-License-Identifier: MIT
#include "fixture.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;

namespace {

/// Point i at ((i + 1) / 100, 0.5) of the picture, visibility 0.8.
std::string points(const std::string& visibility = "0.8") {
  std::string out;
  for (int i = 0; i < 33; ++i) {
    out += (i == 0 ? R"([{"x": )" : R"(, {"x": )") + std::to_string((i + 1) / 100.0) +
           R"(, "y": 0.5, "z": -0.1, "visibility": )" + visibility + "}";
  }
  return out + "]";
}

/// Point i at (i + 1, 2, 3) / 100 m.
std::string world() {
  std::string out;
  for (int i = 0; i < 33; ++i) {
    out += (i == 0 ? R"([{"x": )" : R"(, {"x": )") + std::to_string((i + 1) / 100.0) +
           R"(, "y": 0.02, "z": 0.03, "visibility": 0.6})";
  }
  return out + "]";
}

}  // namespace

TEST_CASE("33 points: every index is its joint, left being lead, in fractions of the picture") {
  const auto film = read(points());
  REQUIRE(film);
  CHECK(film->dialect == "33 points, in fractions of the picture");
  CHECK(film->estimator == Estimator::points_33);
  REQUIRE(film->frames.size() == 1);
  const Person& person = person_in(*film);
  struct Expected {
    LandmarkId id;
    int index;
  };
  const Expected table[] = {
      {centre(Joint::nose), 0},     {lead(Joint::eye), 2},       {trail(Joint::eye), 5},
      {lead(Joint::ear), 7},        {trail(Joint::ear), 8},      {lead(Joint::shoulder), 11},
      {trail(Joint::shoulder), 12}, {lead(Joint::elbow), 13},    {trail(Joint::elbow), 14},
      {lead(Joint::wrist), 15},     {trail(Joint::wrist), 16},   {lead(Joint::little_1), 17},
      {trail(Joint::little_1), 18}, {lead(Joint::index_1), 19},  {trail(Joint::index_1), 20},
      {lead(Joint::thumb_2), 21},   {trail(Joint::thumb_2), 22}, {lead(Joint::hip), 23},
      {trail(Joint::hip), 24},      {lead(Joint::knee), 25},     {trail(Joint::knee), 26},
      {lead(Joint::ankle), 27},     {trail(Joint::ankle), 28},   {lead(Joint::heel), 29},
      {trail(Joint::heel), 30},     {lead(Joint::big_toe), 31},  {trail(Joint::big_toe), 32}};
  std::size_t seen = 0;
  for (const auto& point : person.image.values()) seen += point.has_value();
  CHECK(seen == std::size(table));
  for (const auto& expected : table) {
    CHECK_CLOSE(x_of(person, expected.id), 10.0 * (expected.index + 1), 1e-9);
    CHECK_CLOSE(person.image[expected.id]->at.y_px, 1000, 1e-9);
    CHECK(person.image[expected.id]->confidence == 0.8);
  }
}

TEST_CASE("33 points: the shapes that a frame and a film may have") {
  const std::string list = points();
  const std::string documents[] = {
      "[" + list + ", null, [], {}]",
      R"({"frames": [)" + list + ", null, [], {}]}",
      R"([{"poseLandmarks": )" + list +
          R"(}, {"poseLandmarks": null}, {"poseLandmarks": []}, null])",
      R"({"frames": [{"landmarks": [)" + list + R"(]}, {"landmarks": []}, null, []]})",
      R"([{"pose_landmarks": {"landmark": )" + list + R"(}}, {"pose_landmarks": null}, [], []])",
  };
  for (const auto& document : documents) {
    CAPTURE(document.substr(0, 40));
    const auto film = read(document);
    REQUIRE(film);
    REQUIRE(film->frames.size() == 4);
    CHECK_CLOSE(x_of(person_in(*film, 0), centre(Joint::nose)), 10, 1e-9);
    for (std::size_t i = 1; i < 4; ++i) CHECK(film->frames[i].people.empty());
  }
  const auto late = read("[null, null, " + list + "]");
  REQUIRE(late);
  CHECK(late->frames[2].number == 2);
  CHECK(late->frames[2].people.size() == 1);
}

TEST_CASE("33 points: several people, each with the points in space that go with them") {
  const auto film = read(R"([{"landmarks": [)" + points() + ',' + points("0.3") +
                         R"(], "worldLandmarks": [)" + world() + ',' + world() + "]}]");
  REQUIRE(film);
  REQUIRE(film->frames[0].people.size() == 2);
  const Person& second = film->frames[0].people[1];
  CHECK(second.image[lead(Joint::knee)]->confidence == 0.3);
  REQUIRE(second.space.has(lead(Joint::knee)));
  CHECK_CLOSE(second.space[lead(Joint::knee)]->x_m, 0.26, 1e-12);
  CHECK_CLOSE(second.space[lead(Joint::knee)]->y_m, 0.02, 1e-12);
  CHECK_CLOSE(second.space[lead(Joint::knee)]->z_m, 0.03, 1e-12);
  CHECK(second.space[lead(Joint::knee)]->confidence == 0.6);
}

TEST_CASE("33 points: pixels, as bare arrays without confidence") {
  std::string list;
  for (int i = 0; i < 33; ++i) {
    list += (i == 0 ? "[" : ",[") + std::to_string(100 + i) + ", 600, -20]";
  }
  const auto film = read("[[" + list + "]]");
  REQUIRE(film);
  CHECK(film->dialect == "33 points, in pixels");
  CHECK_FALSE(film->confidence_given);
  CHECK(x_of(person_in(*film), lead(Joint::hip)) == 123);
  CHECK(person_in(*film).image[lead(Joint::hip)]->confidence == 1);
}

TEST_CASE("33 points: a visibility of 0 everywhere says nothing") {
  const auto film = read('[' + points("0") + ']');
  REQUIRE(film);
  CHECK_FALSE(film->confidence_given);
  CHECK(person_in(*film).image[lead(Joint::hip)]->confidence == 1);
  const auto mixed = read('[' + points("0") + ',' + points("0.5") + ']');
  REQUIRE(mixed);
  CHECK(mixed->confidence_given);
  CHECK(person_in(*mixed).image[lead(Joint::hip)]->confidence == 0);
}

TEST_CASE("33 points: fractions need the size of the picture") {
  const auto film = read(points(), std::nullopt);
  REQUIRE_FALSE(film);
  CHECK(film.error().fault == Fault::not_a_film);
  CHECK(to_string(film.error()) ==
        "film.json: gives points in fractions of the picture, whose size isn't known (add image: { "
        "width: …, height: … } to this view in submission.yaml)");
}

TEST_CASE("33 points: points in space alone are a film whose picture is drawn from them") {
  const auto metres = [](const std::string& z) {
    std::string list;
    for (int i = 0; i < 33; ++i) {
      const std::string x = i == 23 ? "0.11" : i == 24 ? "-0.11" : "0.3";
      const std::string y = i == 23 || i == 24 ? "0.001" : i == 0 ? "-0.6" : "0.6";
      list += (i == 0 ? "" : ",") + (R"({"x": )" + x + R"(, "y": )" + y + z + "}");
    }
    return list;
  };
  const std::string deep = metres(R"(, "z": 0.1)");
  for (const std::string& document :
       {"[[" + deep + "]]", R"([{"poseWorldLandmarks": [)" + deep + "]}]"}) {
    CAPTURE(document.substr(0, 30));
    const auto film = read(document);
    REQUIRE(film);
    CHECK(film->dialect == "33 points, in space only");
    CHECK(film->picture_is_drawn);
    CHECK(film->space == SpaceSource::one_camera);
    const Person& person = person_in(*film);
    CHECK_CLOSE(person.space[lead(Joint::hip)]->x_m, 0.11, 1e-12);
    CHECK_CLOSE(person.space[centre(Joint::nose)]->y_m, -0.6, 1e-12);
    // Drawn as from 4 m away, upright, filling nine tenths of the picture.
    const double nose = person.image[centre(Joint::nose)]->at.y_px;
    const double heel = person.image[lead(Joint::heel)]->at.y_px;
    CHECK_CLOSE((heel - nose) / film->image->height_px, 0.9, 0.01);
    CHECK(x_of(person, lead(Joint::hip)) > x_of(person, trail(Joint::hip)));
  }
  CHECK(error_of("[[" + metres("") + "]]") ==
        "film.json: holds only the estimator's points in space (metres about the mid-hip), not the "
        "points in the picture (export the image landmarks too)");
}

TEST_CASE("33 points: errors name file, frame and key") {
  CHECK(error_of("[" + points() + ", " + R"([{"x": 1, "y": 1}]])") ==
        "film.json: frame 1: /1: has 1 points where 33 are expected");
  CHECK(error_of(R"([null, {"poseLandmarks": )" + points("\"high\"") + "}]") ==
        "film.json: frame 1: /1/poseLandmarks/0/visibility: should be a number, is the text "
        "\"high\"");
  CHECK(error_of("[" + points() + ", 7]") ==
        "film.json: frame 1: /1: should be a list of points, is a number");
}
