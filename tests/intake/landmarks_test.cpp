// SPDX-License-Identifier: MIT
#include "intake/landmarks.hpp"

#include "fixture.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;

namespace {

const std::string film_of_two = R"({"format": "rangecheck-landmarks", "version": 1,
    "frames": [{"people": [{"track": 4,
      "points": {"left_knee": [300, 1200, 0.5], "right_knee": [500, 1210], "nose": [410, 300],
                 "left_heel": [-20, 1900]},
      "space": {"left_knee": [0.1, 0.2, 0.3]}}]}]})";

std::string nested(int depth) {
  return std::string(static_cast<std::size_t>(depth), '[') +
         std::string(static_cast<std::size_t>(depth), ']');
}

}  // namespace

TEST_CASE("a left-hander's film is turned over: x from the other edge, sides exchanged") {
  const auto film = read(film_of_two, portrait, Handedness::left);
  REQUIRE(film);
  const Person& person = person_in(*film);
  CHECK(x_of(person, lead(Joint::knee)) == 500);   // right_knee at 1000 − 500
  CHECK(x_of(person, trail(Joint::knee)) == 700);  // left_knee at 1000 − 300
  CHECK(person.image[lead(Joint::knee)]->at.y_px == 1210);
  CHECK(person.image[trail(Joint::knee)]->confidence == 0.5);
  CHECK(x_of(person, centre(Joint::nose)) == 590);
  CHECK(x_of(person, trail(Joint::heel)) == 1020);
  CHECK_FALSE(person.image.has(lead(Joint::heel)));
  REQUIRE(person.space.has(trail(Joint::knee)));
  CHECK_FALSE(person.space.has(lead(Joint::knee)));
  CHECK(person.space[trail(Joint::knee)]->x_m == -0.1);
  CHECK(person.space[trail(Joint::knee)]->y_m == 0.2);
  CHECK(person.space[trail(Joint::knee)]->z_m == 0.3);
  CHECK(person.track == 4);
}

TEST_CASE("without a width x is negated for a left-hander") {
  const auto film = read(film_of_two, std::nullopt, Handedness::left);
  REQUIRE(film);
  CHECK_FALSE(film->image);
  CHECK(x_of(person_in(*film), lead(Joint::knee)) == -500);
}

TEST_CASE("a mirrored film of a left-hander reads like the film of a right-hander") {
  const std::string mirrored_film = R"({"format": "rangecheck-landmarks", "version": 1,
      "frames": [{"people": [{"track": 4,
        "points": {"right_knee": [700, 1200, 0.5], "left_knee": [500, 1210], "nose": [590, 300],
                   "right_heel": [1020, 1900]},
        "space": {"right_knee": [-0.1, 0.2, 0.3]}}]}]})";
  const auto right_hander = read(film_of_two);
  const auto left_hander = read(mirrored_film, portrait, Handedness::left);
  REQUIRE(right_hander);
  REQUIRE(left_hander);
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const LandmarkId id = landmark_at(i);
    CAPTURE(key_of(id));
    const auto& a = person_in(*right_hander).image[id];
    const auto& b = person_in(*left_hander).image[id];
    REQUIRE(a.has_value() == b.has_value());
    if (a) CHECK(a->at.x_px == b->at.x_px);
    CHECK(person_in(*right_hander).space.has(id) == person_in(*left_hander).space.has(id));
  }
}

TEST_CASE("the size of the picture: from the manifest, from the film, never two different") {
  std::string with_image = film_of_two;
  with_image.insert(1, R"("image": {"width": 1080, "height": 1920}, )");
  CHECK(read(with_image, std::nullopt)->image->width_px == 1080);
  CHECK(read(film_of_two)->image->width_px == 1000);
  const auto both = read(with_image);
  REQUIRE_FALSE(both);
  CHECK(both.error().fault == Fault::disagreement);
  CHECK(
      to_string(both.error()) ==
      "film.json: /image: the film says that the picture is 1080 × 1920, the submission says 1000 "
      "× 2000 (correct the one that is wrong, or leave image out of the submission)");
}

TEST_CASE("fractions are told from pixels by their size") {
  const auto scale = [](const std::string& points) {
    return read(
        R"({"format": "rangecheck-landmarks", "version": 1, "frames": [{"people": [{"points": )" +
        points + "}]}]}");
  };
  const auto over_the_edge = scale(R"({"nose": [0.5, -0.2], "left_heel": [1.4, 1.1]})");
  REQUIRE(over_the_edge);
  CHECK(over_the_edge->dialect == "plain form, in fractions of the picture");
  CHECK_CLOSE(x_of(person_in(*over_the_edge), lead(Joint::heel)), 1400, 1e-9);
  CHECK_CLOSE(person_in(*over_the_edge).image[centre(Joint::nose)]->at.y_px, -400, 1e-9);
  CHECK(scale(R"({"nose": [0.5, 0.2], "left_heel": [4, 1]})")->dialect == "plain form, in pixels");
  const auto centred = scale(R"({"nose": [-0.5, 0.2], "left_heel": [0.6, 1]})");
  REQUIRE_FALSE(centred);
  CHECK(to_string(centred.error()) ==
        "film.json: has coordinates from -1 to 1, which can't be placed for sure (export them in "
        "pixels)");
}

TEST_CASE("what is no film says what it looks like") {
  const std::string remedy = " (write it in the plain form that README shows)";
  const std::string lead_in = "film.json: isn't a landmark file of a known form: it is ";
  CHECK(error_of(R"({"annotations": [1], "images": []})") ==
        lead_in + R"(an object with the keys "annotations", "images")" + remedy);
  CHECK(error_of("[[1], 2]") == lead_in + "an array of 2 with an array first" + remedy);
  CHECK(error_of("\"hello\"") == lead_in + "the text \"hello\"" + remedy);
  CHECK(error_of(R"({"a\nb": 1})") == lead_in + R"(an object with the keys "a\nb")" + remedy);
  CHECK(error_of("[]") == "film.json: holds no frames");
  CHECK(error_of("null") == "film.json: holds no frames");
}

TEST_CASE("what is no JSON, or more than a film can be, is refused with its line") {
  CHECK(error_of("") == "film.json: is empty");
  CHECK(error_of("[1,\n2,\n") ==
        "film.json:3: is cut short: the JSON in it doesn't end (send the file again)");
  CHECK(error_of("[1,\n2 3]") == "film.json:2: isn't valid JSON");
  CHECK(error_of("[1e999]") == "film.json: holds a number too large for any film");
  CHECK(error_of("[\"\xff\"]") == "film.json:1: isn't valid JSON");
  CHECK(error_of(nested(66)) == "film.json: is nested too deeply for a landmark file");
  CHECK(error_of(std::string(100000, '[')) ==
        "film.json: is nested too deeply for a landmark file");
  CHECK(error_of("[NaN, -Infinity, \"NaN\", Nan]") == "film.json:1: isn't valid JSON");
  std::string noughts = "[";
  for (std::size_t i = 0; i < 17'000'000; ++i) noughts += "0,";
  CHECK(error_of(noughts + "0]") ==
        "film.json: holds more than 16 million values (cut the film to the swing itself)");
  CHECK(error_of(R"([{"image_id": 0, "keypoints": [)" + triples(17, 1) + "]}" + "}") ==
        "film.json:1: isn't valid JSON");
}

TEST_CASE("no files at all") {
  const auto film = read_landmarks({}, portrait, Handedness::right);
  REQUIRE_FALSE(film);
  CHECK(film.error().what == "there are no landmark files");
}

TEST_CASE("known dialects are listed, the plain form first") {
  const auto lines = known_dialects();
  REQUIRE(lines.size() >= 4);
  CHECK(lines.front().find("rangecheck-landmarks") != std::string::npos);
}
