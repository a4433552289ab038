// SPDX-License-Identifier: MIT
#include "fixture.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;

namespace {

std::string person(const std::string& body, const std::string& more = "") {
  return R"({"person_id": [-1], "pose_keypoints_2d": [)" + body + "]" + more + "}";
}

std::string frame(const std::string& people) {
  return R"({"version": 1.3, "people": [)" + people + "]}";
}

}  // namespace

TEST_CASE("25 points: every index is its joint, left being lead") {
  const auto film = read(frame(person(triples(25, 100))));
  REQUIRE(film);
  CHECK(film->dialect == "25 points a person, one list of people a frame, in pixels");
  const Person& one = person_in(*film);
  const LandmarkId order[] = {centre(Joint::nose), centre(Joint::neck),   trail(Joint::shoulder),
                              trail(Joint::elbow), trail(Joint::wrist),   lead(Joint::shoulder),
                              lead(Joint::elbow),  lead(Joint::wrist),    centre(Joint::pelvis),
                              trail(Joint::hip),   trail(Joint::knee),    trail(Joint::ankle),
                              lead(Joint::hip),    lead(Joint::knee),     lead(Joint::ankle),
                              trail(Joint::eye),   lead(Joint::eye),      trail(Joint::ear),
                              lead(Joint::ear),    lead(Joint::big_toe),  lead(Joint::small_toe),
                              lead(Joint::heel),   trail(Joint::big_toe), trail(Joint::small_toe),
                              trail(Joint::heel)};
  for (int i = 0; i < 25; ++i) CHECK(x_of(one, order[i]) == 100 + i);
}

TEST_CASE("the wrapper may hold 17 points; two point sets in one film are refused") {
  const auto film = read(frame(person(triples(17, 100))));
  REQUIRE(film);
  CHECK(x_of(person_in(*film), trail(Joint::ankle)) == 116);
  CHECK(error_of(frame(person(triples(25, 1)) + ',' + person(triples(26, 1)))) ==
        "film.json: frame 0: has a person of 26 points, after others of 25 (export the whole film "
        "with one estimator)");
}

TEST_CASE("hands: from the wrist, which the body has, to the tips") {
  const auto film =
      read(frame(person(triples(25, 100), R"(, "hand_left_keypoints_2d": [)" + triples(21, 300) +
                                              R"(], "hand_right_keypoints_2d": null)")));
  REQUIRE(film);
  const Person& one = person_in(*film);
  CHECK(x_of(one, lead(Joint::wrist)) == 107);
  CHECK(x_of(one, lead(Joint::thumb_1)) == 301);
  CHECK(x_of(one, lead(Joint::index_1)) == 305);
  CHECK(x_of(one, lead(Joint::little_4)) == 320);
  CHECK_FALSE(one.image.has(trail(Joint::thumb_1)));
}

TEST_CASE("a person who wasn't found: {}, full of NaN, without points") {
  const auto film =
      read(frame("{}, " + person(repeated("NaN", 75)) + ", " + person("") + ", " +
                 person(repeated("-Infinity, NaN, 0.5", 25)) + ", " + person(triples(25, 9))));
  REQUIRE(film);
  CHECK(x_of(person_in(*film), centre(Joint::nose)) == 9);
  const auto nobody = read(frame(""));
  REQUIRE(nobody);
  CHECK(nobody->frames.at(0).people.empty());
}

TEST_CASE("many files: ordered by the numbers in their names, which are the frames") {
  const std::vector<LandmarkText> files = {
      {"f/cam01.0010_keypoints.json", frame(person(triples(25, 10)))},
      {"f/cam01.9_keypoints.json", frame(person(triples(25, 9)))},
      {"f/cam01.0007_keypoints.json", frame("")}};
  const auto film = read_landmarks(files, portrait, Handedness::right);
  REQUIRE(film);
  REQUIRE(film->frames.size() == 3);
  CHECK(film->frames[0].number == 7);
  CHECK(film->frames[1].number == 9);
  CHECK(film->frames[2].number == 10);
  CHECK(film->frames[0].people.empty());
  CHECK(x_of(person_in(*film, 2), centre(Joint::nose)) == 10);
}

TEST_CASE("many files: names without useful numbers are counted") {
  const std::vector<LandmarkText> files = {{"b_body25.json", frame(person(triples(25, 2)))},
                                           {"a_body25.json", frame(person(triples(25, 1)))}};
  const auto film = read_landmarks(files, portrait, Handedness::right);
  REQUIRE(film);
  CHECK(film->frames[0].number == 0);
  CHECK(film->frames[1].number == 1);
  CHECK(x_of(person_in(*film, 0), centre(Joint::nose)) == 1);
}

TEST_CASE("many files: the one that is wrong is named") {
  const auto error = [](const std::string& second) {
    const std::vector<LandmarkText> files = {{"0.json", frame(person(triples(25, 2)))},
                                             {"1.json", second}};
    const auto film = read_landmarks(files, portrait, Handedness::right);
    REQUIRE_FALSE(film);
    return to_string(film.error());
  };
  CHECK(error(frame(person("true," + triples(24, 2) + ",1,1"))) ==
        "1.json: frame 1: /people/0/pose_keypoints_2d/0: should be a number, is true");
  CHECK(error('[' + frame("") + ',' + frame("") + ']') ==
        "1.json: frame 1: holds 2 frames; a film in many files has one frame in each");
  CHECK(error('[' + repeated(R"({"x": 0.5, "y": 0.5})", 33) + ']') ==
        "1.json: frame 1: is of another form than the files before it (keep the files of one film "
        "in a folder of their own)");
  CHECK(error("{\n\"people\": [") ==
        "1.json:2: frame 1: is cut short: the JSON in it doesn't end (send the file again)");
}
