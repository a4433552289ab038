// SPDX-License-Identifier: MIT
#include "fixture.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;

namespace {

std::string entry(const std::string& image_id, const std::string& keypoints,
                  const std::string& more = "") {
  return R"({"image_id": )" + image_id + R"(, "category_id": 1, "keypoints": [)" + keypoints +
         R"(], "score": 2.9)" + more + "}";
}

}  // namespace

TEST_CASE("17 points: every index is its joint, left being lead") {
  const auto film = read('[' + entry("0", triples(17, 100)) + ']');
  REQUIRE(film);
  CHECK(film->dialect == "17 points a person, all pictures in one array, in pixels");
  CHECK(film->estimator == Estimator::unknown);
  CHECK(film->confidence_given);
  const Person& person = person_in(*film);
  CHECK(x_of(person, centre(Joint::nose)) == 100);
  const Joint pairs[] = {Joint::eye,   Joint::ear, Joint::shoulder, Joint::elbow,
                         Joint::wrist, Joint::hip, Joint::knee,     Joint::ankle};
  double next = 101;
  for (const Joint joint : pairs) {
    CHECK(x_of(person, lead(joint)) == next++);
    CHECK(x_of(person, trail(joint)) == next++);
  }
  CHECK(person.image[trail(Joint::ankle)]->at.y_px == 1016);
  CHECK(person.image[trail(Joint::ankle)]->confidence == 0.5);
  CHECK_FALSE(person.image.has(lead(Joint::heel)));
  CHECK_FALSE(person.track);
}

TEST_CASE("pictures are put in numeric order and people of one picture together") {
  const auto film = read(
      '[' + entry("\"10.jpg\"", triples(17, 10)) + ',' + entry("\"2.jpg\"", triples(17, 2)) + ',' +
      entry("\"9.jpg\"", triples(17, 9)) + ',' + entry("\"2.jpg\"", triples(17, 700)) + ']');
  REQUIRE(film);
  REQUIRE(film->frames.size() == 3);
  CHECK(film->frames[0].number == 2);
  CHECK(film->frames[1].number == 9);
  CHECK(film->frames[2].number == 10);
  REQUIRE(film->frames[0].people.size() == 2);
  CHECK(x_of(film->frames[0].people[1], centre(Joint::nose)) == 700);
}

TEST_CASE("the estimator's identity of a person: alone, in lists, or none") {
  const std::string points = triples(17, 100);
  const auto film = read('[' + entry("0", points, R"(, "idx": 7)") + ',' +
                         entry("1", points, R"(, "idx": [[3.0]])") + ',' +
                         entry("2", points, R"(, "idx": [])") + ']');
  REQUIRE(film);
  CHECK(person_in(*film, 0).track == 7);
  CHECK(person_in(*film, 1).track == 3);
  CHECK_FALSE(person_in(*film, 2).track);
}

TEST_CASE("missing points are absent, confidence is clamped, odd places are kept") {
  const std::string points =
      "0,0,0, -1,-1,0.9, 5,5,0, null,5,0.5, 5,NaN,0.5, 5,5,null, 5,5,-1, "
      "-53.5,2100,1.07, 5,5,0.25," +
      repeated("0,-3,0", 8);
  const auto film = read('[' + entry("0", points) + ',' + entry("1", repeated("0,0,0", 17)) + ']');
  REQUIRE(film);
  const Person& person = person_in(*film);
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const LandmarkId id = landmark_at(i);
    const bool seen = id == lead(Joint::elbow) || id == trail(Joint::elbow);
    CAPTURE(key_of(id));
    CHECK(person.image.has(id) == seen);
  }
  CHECK(person.image[lead(Joint::elbow)]->at.x_px == -53.5);
  CHECK(person.image[lead(Joint::elbow)]->at.y_px == 2100);
  CHECK(person.image[lead(Joint::elbow)]->confidence == 1);
  CHECK(person.image[trail(Joint::elbow)]->confidence == 0.25);
  CHECK(film->frames[1].people.empty());
}

TEST_CASE("flags instead of confidences are taken for none") {
  std::string points;
  for (int i = 0; i < 17; ++i) points += (i == 0 ? "" : ",") + std::to_string(100 + i) + ",900,2";
  const auto film = read('[' + entry("0", points) + ']');
  REQUIRE(film);
  CHECK_FALSE(film->confidence_given);
}

TEST_CASE("errors name file, frame and key") {
  CHECK(error_of('[' + entry("4", triples(17, 9)) + ',' + entry("5", triples(26, 9)) + ']') ==
        "film.json: frame 1: has a person of 26 points, after others of 17 (export the whole film "
        "with one estimator)");
  CHECK(error_of('[' + entry("4", triples(23, 9)) + ']') ==
        "film.json: has 23 points a person; known are sets of 14, 15, 16, 17, 18, 19, 20, 25, 26, "
        "32, 33, 133, 134, 135, 136 (say in a file under layouts in the profiles folder which "
        "point is which joint, or write it in the plain form that README shows)");
  CHECK(error_of('[' + entry("4", triples(21, 9)) + ']') ==
        "film.json: has 21 points a person, which are those of a hand, without a body (export the "
        "body's points too)");
  CHECK(error_of('[' + entry("4", "1,2,0.5,4") + ']') ==
        "film.json: frame 0: /0/keypoints: has 4 numbers, which is no multiple of the 3 of a "
        "point");
  CHECK(error_of('[' + entry("4", "\"7\"," + triples(16, 9) + ",1,1") + ']') ==
        "film.json: frame 0: /0/keypoints/0: should be a number, is the text \"7\"");
  CHECK(error_of('[' + entry("4", triples(17, 9)) + ", 3]") ==
        "film.json: /1: should be an object, is a number");
  CHECK(error_of('[' + entry("[1]", triples(17, 9)) + ']') ==
        "film.json: /0/image_id: should be a whole number or a text, is an array");
}
