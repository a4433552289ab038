// SPDX-License-Identifier: MIT
// Forms that hold points in space: axes, units, who is missing. The table of dialects holds their
// points against the made-up scene.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <array>
#include <cmath>

#include "fixture.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;

namespace {

using Vector = std::array<double, 3>;

/// A person who stands: right, up and forward of himself, metres, from the pelvis. In H36M order.
constexpr std::array<Vector, 17> standing = {{{0, 0, 0},
                                              {0.13, 0, 0},
                                              {0.14, -0.45, 0.05},
                                              {0.15, -0.9, 0},
                                              {-0.13, 0, 0},
                                              {-0.14, -0.45, 0.05},
                                              {-0.15, -0.9, 0},
                                              {0, 0.25, 0.02},
                                              {0, 0.5, 0.05},
                                              {0, 0.6, 0.1},
                                              {0, 0.7, 0.08},
                                              {-0.18, 0.48, 0.05},
                                              {-0.2, 0.2, 0.1},
                                              {-0.15, 0, 0.3},
                                              {0.18, 0.48, 0.05},
                                              {0.2, 0.2, 0.1},
                                              {0.15, 0, 0.3}}};

/// [[x, y, z], …] with each axis of the file along one of the person's: {0, 1}: his right, {1, -1}:
/// his down, …
struct Axis {
  std::size_t of = 0;
  double sign = 1;
};
std::string frame_in(const std::array<Axis, 3>& axes, double scale = 1) {
  std::string text;
  for (const Vector& point : standing) {
    text += fmt::format(
        "{}[{},{},{}]", text.empty() ? "[" : ",", scale * axes[0].sign * point[axes[0].of],
        scale * axes[1].sign * point[axes[1].of], scale * axes[2].sign * point[axes[2].of]);
  }
  return text + "]";
}

Vector place(const Person& person, LandmarkId id) {
  CAPTURE(key_of(id));
  REQUIRE(person.space.has(id));
  const auto& point = *person.space[id];
  return {point.x_m, point.y_m, point.z_m};
}

/// That the person stands upright in camera axes with his size, and that no mirror was in between:
/// his left, up and forward are right-handed.
void check_standing(const Person& person) {
  const Vector head = place(person, centre(Joint::head_top));
  const Vector left = place(person, lead(Joint::hip)), right = place(person, trail(Joint::hip));
  const Vector wrist = place(person, lead(Joint::wrist));
  const Vector ankle = place(person, lead(Joint::ankle));
  CHECK(std::abs((ankle[1] - head[1]) - 1.6) < 1e-9);
  CHECK(std::abs(std::hypot(left[0] - right[0], left[2] - right[2]) - 0.26) < 1e-9);
  // Seen from above, in x right and z away: a quarter turn from forward to left.
  const double across_x = left[0] - right[0], across_z = left[2] - right[2];
  const double forward_x = wrist[0] - left[0], forward_z = wrist[2] - left[2];
  CHECK(forward_x * across_z - forward_z * across_x > 0.05);
}

}  // namespace

TEST_CASE("17 points in space: whichever axis is up, the body tells") {
  // Right-handed axes only. A camera in front sees the person's right on its left.
  const std::array<std::array<Axis, 3>, 7> all = {{
      {{{0, -1}, {1, -1}, {2, -1}}},  // a camera's: right, down, away
      {{{0, -1}, {1, 1}, {2, 1}}},    // y up
      {{{0, 1}, {2, 1}, {1, 1}}},     // z up
      {{{0, -1}, {2, 1}, {1, -1}}},   // z down
      {{{1, 1}, {0, 1}, {2, 1}}},     // x up
      {{{1, -1}, {0, -1}, {2, 1}}},   // x down
      {{{2, 1}, {0, -1}, {1, 1}}},    // z up, turned
  }};
  for (const auto& axes : all) {
    CAPTURE(frame_in(axes).substr(0, 80));
    for (const double scale : {1.0, 1000.0}) {
      const auto film =
          read("[" + frame_in(axes, scale) + ",[]," + frame_in(axes, scale) + "]", std::nullopt);
      if (!film) FAIL_CHECK(to_string(film.error()));
      if (!film) continue;
      REQUIRE(film->frames.size() == 3);
      CHECK(film->frames[1].people.empty());
      check_standing(person_in(*film, 0));
      check_standing(person_in(*film, 2));
      CHECK(film->picture_is_drawn);
      CHECK(film->space == SpaceSource::one_camera);
    }
  }
}

TEST_CASE("17 points in space: a person who lies along no axis, and several recordings") {
  std::string tilted = "[";
  for (const Vector& point : standing) {
    tilted +=
        fmt::format("{}[{},{},{}]", tilted.size() == 1 ? "" : ",", point[0],
                    (point[1] + point[2]) * std::sqrt(0.5), (point[1] - point[2]) * std::sqrt(0.5));
  }
  CHECK(error_of("[" + tilted + "]]") ==
        "film.json: does not show which way is up: nobody stands along an axis (turn the points so "
        "that y or z is vertical)");
  const std::string frame = frame_in({{{0, 1}, {2, 1}, {1, 1}}}, 1000);
  const auto one =
      read("{\"5\":{\"2\":{\"0\":" + frame + ",\"10\":" + frame + ",\"9\":" + frame + "}}}");
  if (!one) FAIL(to_string(one.error()));
  CHECK(one->space == SpaceSource::several_cameras);
  REQUIRE(one->frames.size() == 3);
  CHECK(one->frames[1].number == 9);
  CHECK(one->frames[2].number == 10);
  CHECK(error_of("{\"5\":{\"1\":{\"0\":" + frame + "},\"2\":{\"0\":" + frame + "}}}") ==
        "film.json: /5: holds 2 recordings where one film should be (write each into a file of its "
        "own)");
}

TEST_CASE("17 points in the picture are not taken for points in space") {
  const auto film = read("[[" + repeated("[500,600,0.9]", 17) + "]]");
  if (film) CHECK_FALSE(film->picture_is_drawn);
}

namespace {

/// joints19 of a person who stands, the floor at 0, facing along z; the nose is missing.
std::string studio_body(double x_cm) {
  constexpr std::array<Vector, 19> y_up_cm = {{{0, 140, 0},
                                               {0, 0, 0},
                                               {0, 90, 0},
                                               {20, 138, 0},
                                               {22, 110, 0},
                                               {18, 90, 25},
                                               {13, 90, 0},
                                               {14, 45, 3},
                                               {15, 5, 0},
                                               {-20, 138, 0},
                                               {-22, 110, 0},
                                               {-18, 90, 25},
                                               {-13, 90, 0},
                                               {-14, 45, 3},
                                               {-15, 5, 0},
                                               {3, 157, 8},
                                               {8, 155, 0},
                                               {-3, 157, 8},
                                               {-8, 155, 0}}};
  std::string text;
  for (std::size_t i = 0; i < y_up_cm.size(); ++i) {
    const Vector& at = y_up_cm[i];
    // A half turn about x: y down keeps its right hand.
    text +=
        (i == 0 ? "" : ",") + (i == 1 ? std::string("0,0,0,-1")
                                      : fmt::format("{},{},{},0.5", at[0] + x_cm, -at[1], -at[2]));
  }
  return text;
}

}  // namespace

TEST_CASE("19 points in a studio: centimetres, y down, one file a frame, time in milliseconds") {
  const auto picture = [](double time_ms, const std::string& bodies) {
    return fmt::format(
        "{{\"version\":0.7,\"univTime\":{},\"fpsType\":\"hd_29_97\",\"bodies\":[{}]}}", time_ms,
        bodies);
  };
  const std::string two = "{\"id\":4,\"joints19\":[" + studio_body(0) +
                          "]},{\"id\":9,\"joints19\":[" + studio_body(150) + "]}";
  const auto film = read_landmarks({{"body3DScene_00000140.json", picture(1033.5, "")},
                                    {"body3DScene_00000139.json", picture(1000, two)}},
                                   ReadOptions{});
  if (!film) FAIL(to_string(film.error()));
  CHECK(film->space == SpaceSource::several_cameras);
  CHECK(film->picture_is_drawn);
  CHECK(film->frame_rate_hz == 29.97);
  REQUIRE(film->frames.size() == 2);
  CHECK(film->frames[0].number == 139);
  CHECK(film->frames[0].time->in_seconds() == 1);
  CHECK(film->frames[1].time->in_seconds() == 1.0335);
  CHECK(film->frames[1].people.empty());
  REQUIRE(film->frames[0].people.size() == 2);
  const Person& one = film->frames[0].people[0];
  const Person& other = film->frames[0].people[1];
  CHECK(one.track == 4);
  CHECK(other.track == 9);
  CHECK_FALSE(one.space.has(centre(Joint::nose)));
  CHECK(one.space[lead(Joint::knee)]->confidence == 0.5);
  const Vector neck = place(one, centre(Joint::neck)), ankle = place(one, lead(Joint::ankle));
  CHECK(std::abs((ankle[1] - neck[1]) - 1.35) < 1e-9);
  const Vector there = place(other, centre(Joint::neck));
  CHECK(std::abs(std::hypot(there[0] - neck[0], there[2] - neck[2]) - 1.5) < 1e-9);
  // The camera that is drawn stands in front: his left is on its right.
  CHECK(x_of(one, lead(Joint::shoulder)) > x_of(one, trail(Joint::shoulder)));
}

TEST_CASE("a depth camera's first points: texts, and x to the camera's left") {
  // Facing the camera, his left hand is on the camera's right: at negative x.
  std::string points;
  for (int i = 0; i < 20; ++i) {
    const bool left = (i >= 4 && i <= 7) || (i >= 12 && i <= 15);
    const double x = i < 4 ? 7.6e-05 : left ? -0.2 : 0.2;
    const double y = i < 12 ? 0.5 - 0.05 * i : -0.2 - 0.2 * (i % 4);
    points +=
        fmt::format("{}{{\"x\":\"{:.1E}\",\"y\":\"{}\",\"z\":\"2.5\"}}", i == 0 ? "" : ",", x, y);
  }
  const auto film = read("[[" + points + "],[]]", std::nullopt);
  if (!film) FAIL(to_string(film.error()));
  CHECK(film->space == SpaceSource::depth_camera);
  REQUIRE(film->frames.size() == 2);
  CHECK(film->frames[1].people.empty());
  const Person& person = person_in(*film);
  const Vector pelvis = place(person, centre(Joint::pelvis));
  CHECK(pelvis[0] == -7.6e-05);
  CHECK(pelvis[1] == -0.5);
  CHECK(pelvis[2] == 2.5);
  CHECK(place(person, lead(Joint::shoulder))[0] == 0.2);
  CHECK(place(person, trail(Joint::shoulder))[0] == -0.2);
  CHECK(x_of(person, lead(Joint::shoulder)) > x_of(person, trail(Joint::shoulder)));
  CHECK(error_of("[[" + points + "],[{\"x\":\"one\",\"y\":\"0\",\"z\":\"2\"}]]") ==
        "film.json: frame 1: /1/0/x: should be a number, is the text \"one\"");
}

TEST_CASE("bodies of a depth camera without their points are refused, where") {
  CHECK(error_of(
            "{\"joint_names\":[\"PELVIS\"],\"frames\":[{\"bodies\":[]},{\"bodies\":[{\"body_id\":"
            "1}]}]}") == "film.json: frame 1: /frames/1/bodies/0: has no joint_positions");
}
