// SPDX-License-Identifier: MIT
// Point objects and points by name: what the table of dialects does not show.
#include "fixture.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;

namespace {

constexpr const char* names[] = {
    "nose",           "left_eye",   "right_eye",   "left_ear",   "right_ear",   "left_shoulder",
    "right_shoulder", "left_elbow", "right_elbow", "left_wrist", "right_wrist", "left_hip",
    "right_hip",      "left_knee",  "right_knee",  "left_ankle", "right_ankle"};

/// Point i at (x + i, 100 + 20 i).
std::string keypoints(int x, bool named = true) {
  std::string list;
  for (int i = 0; i < 17; ++i) {
    list += (i == 0 ? "[" : ",") + (R"({"x":)" + std::to_string(x + i)) + R"(,"y":)" +
            std::to_string(100 + 20 * i) + R"(,"score":0.9)" +
            (named ? R"(,"name":")" + std::string(names[i]) + "\"" : "") + "}";
  }
  return list + "]";
}

std::string person(int x) { return R"({"score":0.9,"keypoints":)" + keypoints(x) + "}"; }

/// {"nose": {"x": …, "y": …}, …}: y from the top of the picture, or from its bottom.
std::string joints(bool y_up) {
  constexpr const char* keys[] = {
      "head_joint",       "neck_1_joint",      "left_shoulder_1_joint", "right_shoulder_1_joint",
      "left_upLeg_joint", "right_upLeg_joint", "left_leg_joint",        "right_leg_joint"};
  std::string object;
  double down = 0.2;
  for (const char* key : keys) {
    object += (object.empty() ? "{\"" : ",\"") + std::string(key) + R"(":{"x":0.5,"y":)" +
              std::to_string(y_up ? 1 - down : down) + R"(,"confidence":0.9})";
    down += 0.05;
  }
  return object + "}";
}

}  // namespace

TEST_CASE("point objects: a bare list of people far apart is one picture's") {
  const auto film = read("[" + person(100) + "," + person(400) + "]");
  REQUIRE(film);
  REQUIRE(film->frames.size() == 1);
  REQUIRE(film->frames[0].people.size() == 2);
  CHECK(x_of(film->frames[0].people[1], centre(Joint::nose)) == 400);
}

TEST_CASE("point objects: a bare list of someone who hardly moves is a film") {
  const auto film = read("[" + person(100) + "," + person(105) + "," + person(112) + "]");
  REQUIRE(film);
  REQUIRE(film->frames.size() == 3);
  CHECK(x_of(person_in(*film, 2), centre(Joint::nose)) == 112);
  // So is a list longer than any crowd, whatever happens in it.
  std::string many;
  for (int i = 0; i < 20; ++i) many += (i == 0 ? "" : ",") + person(300 * i);
  const auto jumping = read("[" + many + "]");
  REQUIRE(jumping);
  CHECK(jumping->frames.size() == 20);
}

TEST_CASE("point objects: frames without people may come first, and have their numbers") {
  const auto film = read(R"([{"timestamp":1000,"frame":7,"poses":[]},)"
                         R"({"timestamp":1020,"frame":8,"poses":[)" +
                         person(100) + R"(]},{"timestamp":1040,"frame":10,"poses":null}])");
  REQUIRE(film);
  REQUIRE(film->frames.size() == 3);
  CHECK(film->frames[0].people.empty());
  CHECK(film->frames[1].people.size() == 1);
  CHECK(film->frames[2].people.empty());
  CHECK(film->frames[0].number == 7);
  CHECK(film->frames[2].number == 10);
  CHECK_CLOSE(film->frames[1].time->in_seconds() - film->frames[0].time->in_seconds(), 0.02, 1e-9);
}

TEST_CASE("point objects: times are told by how far apart they are") {
  for (const auto& [first, second] :
       {std::pair{"0.5", "0.54"}, std::pair{"500", "540"}, std::pair{"500000", "540000"},
        std::pair{"500000000", "540000000"}}) {
    CAPTURE(first);
    const auto film = read(R"([{"time":)" + std::string(first) + R"(,"poses":[)" + person(100) +
                           R"(]},{"time":)" + second + R"(,"poses":[)" + person(100) + "]}]");
    REQUIRE(film);
    CHECK_CLOSE(film->frames[0].time->in_seconds(), 0.5, 1e-9);
    CHECK_CLOSE(film->frames[1].time->in_seconds(), 0.54, 1e-9);
  }
}

TEST_CASE("point objects: pictures by name are in the order of their numbers") {
  const auto film = read(R"({"10.jpg":)" + person(110) + R"(,"9.jpg":)" + person(109) + "}");
  REQUIRE(film);
  REQUIRE(film->frames.size() == 2);
  CHECK(film->frames[0].number == 9);
  CHECK(x_of(person_in(*film, 0), centre(Joint::nose)) == 109);
  CHECK(x_of(person_in(*film, 1), centre(Joint::nose)) == 110);
}

TEST_CASE("point objects: too few names, hands alone and points without names are refused") {
  CHECK(error_of(R"([{"keypoints":[{"x":1,"y":2,"name":"nose"},{"x":1,"y":3,"name":"tail"}]}])") ==
        "film.json: has a point \"tail\", which no human body has");
  std::string hand;
  for (int i = 0; i < 21; ++i) hand += (i == 0 ? "" : ",") + std::string("[100,200,3]");
  CHECK(error_of("[[[" + hand + "]]]") ==
        "film.json: has 21 points a person, which are those of a hand, without a body (export the "
        "body's points too)");
  const auto unnamed = read(R"([[{"keypoints":)" + keypoints(100, false) + "}]]");
  REQUIRE(unnamed);
  CHECK(x_of(person_in(*unnamed), trail(Joint::ankle)) == 116);
  CHECK(error_of("[[" + person(100) + "],[7]]").find("film.json: frame 1: /1/0") == 0);
}

TEST_CASE("points by name: the corner from which y counts is told by where the heads are") {
  const ImageSize size{1000, 2000};
  const auto up = read("[" + joints(true) + "]", size);
  const auto down = read("[" + joints(false) + "]", size);
  REQUIRE(up);
  REQUIRE(down);
  for (const auto* film : {&*up, &*down}) {
    const Person& one = person_in(*film);
    CHECK_CLOSE(one.image[centre(Joint::nose)]->at.y_px, 400, 1e-3);
    CHECK_CLOSE(one.image[lead(Joint::hip)]->at.y_px, 800, 1e-3);
  }
  CHECK(up->notes.empty());
  REQUIRE(down->notes.size() == 1);
}

TEST_CASE("a video service's times and zeros are read in both of their spellings") {
  std::string landmarks;
  for (const char* name : names) {
    landmarks += (landmarks.empty() ? "" : ",") + (R"({"name":")" + std::string(name)) +
                 R"(","point":{"y":0.25},"confidence":0.5})";
  }
  const auto film = read(
      R"({"annotation_results":[{"person_detection_annotations":[{"tracks":[{"timestamped_objects":[)"
      R"({"landmarks":[)" +
      landmarks + R"(]},{"time_offset":{"seconds":1,"nanos":500000000},"landmarks":[)" + landmarks +
      "]}]}]}]}]}");
  REQUIRE(film);
  REQUIRE(film->frames.size() == 2);
  CHECK(film->frames[0].time->in_seconds() == 0);
  CHECK_CLOSE(film->frames[1].time->in_seconds(), 1.5, 1e-12);
  const Sighting nose = *person_in(*film, 1).image[centre(Joint::nose)];
  CHECK(nose.at.x_px == 0);
  CHECK(nose.at.y_px == 500);
}
