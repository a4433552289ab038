// SPDX-License-Identifier: MIT
#include "fixture.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;

namespace {

const std::string head = R"({"format": "rangecheck-landmarks", "version": 1)";

std::string with_points(const std::string& points) {
  return head + R"(, "frames": [{"people": [{"points": )" + points + "}]}]}";
}

std::string with_frames(const std::string& frames) {
  return head + R"(, "frames": [)" + frames + "]}";
}

}  // namespace

TEST_CASE("the plain form: everything it can say") {
  const auto film = read(R"({"format": "rangecheck-landmarks", "version": 1,
      "image": {"width": 1080, "height": 1920}, "frame-rate": 240,
      "frames": [
        {"frame": 3, "time": 0.5, "people": [
          {"track": 1,
           "points": {"left_knee": [612.5, 1210.0, 0.97], "right_thumb_1": [700, 900],
                      "ball": [640, 1540], "grip_end": null, "nose": [null, 3],
                      "neck": [0, 0, 0]},
           "space": {"left_knee": [0.12, 0.48, -0.05], "nose": null}}]},
        {"people": []}]})",
                         std::nullopt);
  REQUIRE(film);
  CHECK(film->dialect == "plain form, in pixels");
  CHECK(film->image->width_px == 1080);
  CHECK(film->image->height_px == 1920);
  CHECK(film->frame_rate_hz == 240);
  REQUIRE(film->frames.size() == 2);
  CHECK(film->frames[0].number == 3);
  CHECK(film->frames[1].number == 4);
  CHECK(film->frames[0].time->in_seconds() == 0.5);
  const Person& person = person_in(*film);
  CHECK(person.track == 1);
  CHECK(x_of(person, lead(Joint::knee)) == 612.5);
  CHECK(person.image[lead(Joint::knee)]->confidence == 0.97);
  CHECK(x_of(person, trail(Joint::thumb_1)) == 700);
  CHECK(person.image[trail(Joint::thumb_1)]->confidence == 1);
  CHECK(x_of(person, centre(Joint::ball)) == 640);
  for (const Joint missing : {Joint::grip_end, Joint::nose, Joint::neck}) {
    CHECK_FALSE(person.image.has(centre(missing)));
  }
  CHECK_CLOSE(person.space[lead(Joint::knee)]->z_m, -0.05, 1e-12);
  CHECK_FALSE(person.space.has(centre(Joint::nose)));
}

TEST_CASE("the plain form as JSON Lines is the same film") {
  const auto film = read(head + ", \"frame-rate\": 120}\n" +
                         R"({"frame": 0, "people": [{"points": {"left_knee": [612, 1210]}}]})"
                         "\r\n\n" +
                         R"({"frame": 4, "people": [{"points": {"left_knee": [NaN, 1210]}}]})"
                         "\n");
  REQUIRE(film);
  CHECK(film->frame_rate_hz == 120);
  REQUIRE(film->frames.size() == 2);
  CHECK(film->frames[1].number == 4);
  CHECK(film->frames[1].people.empty());
  CHECK(x_of(person_in(*film), lead(Joint::knee)) == 612);
  CHECK(error_of(head + "}\n{\"people\": []}\n{\"people\": [}\n") ==
        "film.json:3: isn't valid JSON");
}

TEST_CASE("the plain form: every landmark can be written") {
  std::string points = "{";
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const LandmarkId id = landmark_at(i);
    const std::string side = id.side == Side::lead    ? "left_"
                             : id.side == Side::trail ? "right_"
                                                      : "";
    points += (i == 0 ? "\"" : ", \"") + side + std::string(key_of(id.joint)) + "\": [" +
              std::to_string(100 + i) + ", 50]";
  }
  const auto film = read(with_points(points + "}"));
  REQUIRE(film);
  for (std::size_t i = 0; i < landmark_count; ++i) {
    CHECK(x_of(person_in(*film), landmark_at(i)) == 100 + static_cast<double>(i));
  }
}

TEST_CASE("the plain form: errors name file, frame, key and the nearest name") {
  const std::string at = "film.json: frame 0: /frames/0/people/0/points";
  CHECK(error_of(with_points(R"({"left_kne": [1, 2]})")) ==
        at + "/left_kne: there is no point of this name (did you mean left_knee?)");
  CHECK(error_of(with_points(R"({"lead_knee": [1, 2]})")) ==
        at + "/lead_knee: there is no point of this name (did you mean left_knee?)");
  CHECK(error_of(with_points(R"({"knee": [1, 2]})")).find("there is no point of this name") !=
        std::string::npos);
  CHECK(error_of(with_points(R"({"left_nose": [1, 2]})")).find(at + "/left_nose: there is no") ==
        0);
  CHECK(error_of(with_points(R"({"nose": [1]})")) ==
        at + "/nose: should be [x, y] or [x, y, confidence]");
  CHECK(error_of(with_points(R"({"nose": ["a/b", 2]})")) ==
        at + "/nose/0: should be a number, is the text \"a/b\"");
  CHECK(error_of(with_points("[1]")) == at + ": should be an object of points, is an array");
  CHECK(error_of(with_frames(R"({"peple": []})")) ==
        "film.json: frame 0: /frames/0/peple: there is no such key (did you mean people?)");
  CHECK(error_of(with_frames(R"({"frame": 2}, {"frame": 2})")) ==
        "film.json: frame 1: /frames/1/frame: should be a whole number that increases");
  CHECK(error_of(with_frames(R"({"frame": -1})")).find("/frames/0/frame") != std::string::npos);
  CHECK(error_of(with_frames(R"({"frame": 1.5})")).find("/frames/0/frame") != std::string::npos);
  CHECK(error_of(with_frames(R"({"time": 2}, {"time": 2})")) ==
        "film.json: frame 1: /frames/1/time: should be later than that of the frame before");
  CHECK(error_of(with_frames(R"({"people": [{}]})")) ==
        "film.json: frame 0: /frames/0/people/0: has no points");
  CHECK(error_of(R"({"format": "rangecheck-landmarks", "version": 2, "frames": []})") ==
        "film.json: /version: should be 1, the only version there is so far");
  CHECK(error_of(head + "}") == "film.json: /frames: should be an array of frames");
  CHECK(error_of(with_frames("")) == "film.json: holds no frames");
  CHECK(error_of(head + R"(, "frame-rate": 0, "frames": [{}]})") ==
        "film.json: /frame-rate: should be a number above 0");
}
