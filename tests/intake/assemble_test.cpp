// SPDX-License-Identifier: MIT
#include "intake/assemble.hpp"

#include <cmath>

#include "fixture.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;

namespace {

constexpr double none = RawPoint::none;

/// Seven named joints of a body that stands, 1.5 m from nose to knees, at `x` and of `size`.
const std::vector<std::string> names = {"nose",      "left_shoulder", "right_shoulder", "left_hip",
                                        "right_hip", "left_knee",     "right_knee"};
std::vector<RawPoint> standing(double x, double y, double size) {
  const double places[][2] = {{0, 0},       {0.2, 0.3},  {-0.2, 0.3}, {0.12, 0.9},
                              {-0.12, 0.9}, {0.13, 1.4}, {-0.13, 1.4}};
  std::vector<RawPoint> points;
  for (const auto& place : places) {
    points.push_back({x + size * place[0], y + size * place[1], none, 0.9});
  }
  return points;
}

RawFilm film_of(std::vector<RawPoint> body) {
  RawFilm film;
  film.form = "a test";
  film.names = names;
  film.frames.resize(1);
  film.frames[0].people.resize(1);
  film.frames[0].people[0].body = std::move(body);
  return film;
}

Result<Film> assembled(RawFilm film, std::optional<ImageSize> image = portrait) {
  try {
    ReadOptions options;
    options.image = image;
    return assemble(std::move(film), options, Spot("film.json"));
  } catch (const Refusal& refusal) {
    return refusal.error;
  }
}

/// The same body in camera axes about the hips, facing the camera, feet included.
std::vector<RawPoint> body_in_space(double (*x)(double, double, double),
                                    double (*y)(double, double, double),
                                    double (*z)(double, double, double)) {
  const double places[][3] = {{0, -0.7, -0.1},     {0.2, -0.5, 0}, {-0.2, -0.5, 0},
                              {0.12, 0, 0},        {-0.12, 0, 0},  {0.13, 0.45, -0.05},
                              {-0.13, 0.45, -0.05}};
  std::vector<RawPoint> points;
  for (const auto& p : places) {
    points.push_back({x(p[0], p[1], p[2]), y(p[0], p[1], p[2]), z(p[0], p[1], p[2]), none});
  }
  return points;
}

}  // namespace

TEST_CASE("assembly: every way of saying that a point is missing") {
  for (const RawPoint& missing :
       {RawPoint{0, 0, none, 0.9}, RawPoint{-1, -1, none, 0.9}, RawPoint{none, 5, none, 0.9},
        RawPoint{5, none, none, 0.9}, RawPoint{500, 500, none, 0}, RawPoint{500, 500, none, -1},
        RawPoint{0, -3, none, 0}, RawPoint{1e12, 5, none, 0.9}, RawPoint{HUGE_VAL, 5, none, 0.9}}) {
    CAPTURE(missing.x);
    CAPTURE(missing.score);
    auto body = standing(500, 300, 400);
    body[5] = missing;
    const auto film = assembled(film_of(body));
    REQUIRE(film);
    CHECK_FALSE(person_in(*film).image.has(lead(Joint::knee)));
    CHECK(person_in(*film).image.has(trail(Joint::knee)));
  }
  auto body = standing(500, 300, 400);
  body[5] = {-40, 2100, none, 1.07};  // outside the picture, and a score a little over 1
  const auto film = assembled(film_of(body));
  CHECK(x_of(person_in(*film), lead(Joint::knee)) == -40);
  CHECK(person_in(*film).image[lead(Joint::knee)]->confidence == 1);
}

TEST_CASE("assembly: scores as confidence, as visibility, as a person's mark") {
  auto body = standing(500, 300, 400);
  body[5].score = 0;
  body[6].score = 1;
  auto film = film_of(body);
  film.score = Score::visibility;
  CHECK(person_in(*assembled(film)).image[lead(Joint::knee)]->confidence == 0);
  for (auto& point : body) point.score = 2;
  body[5].score = 0;
  body[6].score = 1;
  film = film_of(body);
  film.score = Score::label;
  const auto marked = assembled(film);
  CHECK_FALSE(person_in(*marked).image.has(lead(Joint::knee)));
  CHECK(person_in(*marked).image[trail(Joint::knee)]->confidence == 0.5);
  CHECK(person_in(*marked).image[centre(Joint::nose)]->confidence == 1);
  for (auto& point : body) point.score = 1;  // where nobody writes 2, 1 is all there is
  film = film_of(body);
  film.score = Score::label;
  CHECK_FALSE(assembled(film)->confidence_given);
}

TEST_CASE("assembly: scores of 0 for everything say nothing") {
  auto body = standing(500, 300, 400);
  for (auto& point : body) point.score = 0;
  const auto film = assembled(film_of(body));
  REQUIRE(film);
  CHECK_FALSE(film->confidence_given);
  CHECK(person_in(*film).image[lead(Joint::knee)]->confidence == 1);
}

TEST_CASE("assembly: a layout's least score") {
  std::string points = triples(17, 100);
  points.replace(points.find("0.5"), 3, "0.09");
  const auto film = read(R"([{"image_id": 0, "keypoints": [)" + points + "]}]");
  CHECK_FALSE(person_in(*film).image.has(centre(Joint::nose)));
}

TEST_CASE("assembly: pictures counted from below") {
  auto film = film_of(standing(0.5, 0.2, 0.4));
  film.y_up = true;
  const auto fractions = assembled(film);
  REQUIRE(fractions);
  CHECK_CLOSE(person_in(*fractions).image[centre(Joint::nose)]->at.y_px, 1600, 1e-9);
  film = film_of(standing(500, 300, 400));
  film.y_up = true;
  CHECK_CLOSE(person_in(*assembled(film)).image[centre(Joint::nose)]->at.y_px, 1700, 1e-9);
  CHECK_CLOSE(person_in(*assembled(film, std::nullopt)).image[centre(Joint::nose)]->at.y_px, -300,
              1e-9);
}

TEST_CASE("assembly: what a form always counts in overrules the numbers") {
  auto film = film_of(standing(0.5, 0.2, 0.4));
  film.fractions = false;
  CHECK(assembled(film)->dialect == "7 points a person, a test, in pixels");
  film = film_of(standing(0.5, 4, 0.4));
  CHECK(assembled(film)->dialect == "7 points a person, a test, in pixels");
  film.fractions = true;
  CHECK(assembled(film)->dialect == "7 points a person, a test, in fractions of the picture");
}

TEST_CASE("assembly: frames are sorted by number, and none stands twice") {
  auto film = film_of(standing(500, 300, 400));
  film.frames[0].number = 7;
  film.frames.push_back({.number = 3, .time = std::nullopt, .people = {}});
  const auto sorted = assembled(film);
  REQUIRE(sorted);
  CHECK(sorted->frames[0].number == 3);
  CHECK(sorted->frames[1].people.size() == 1);
  film.frames[1].number = 7;
  CHECK(to_string(assembled(film).error()) ==
        "film.json: has two frames of number 7 (keep the frames of one film only)");
}

TEST_CASE("assembly: an identity that two people of a picture share is none") {
  auto film = film_of(standing(500, 300, 400));
  film.frames[0].people[0].track = 0;
  CHECK(assembled(film)->frames[0].people[0].track == 0);
  film.frames[0].people.push_back(film.frames[0].people[0]);
  CHECK_FALSE(assembled(film)->frames[0].people[0].track);
}

TEST_CASE("assembly: hands go onto the hand's joints, and no hand is a golfer") {
  auto film = film_of(standing(500, 300, 400));
  auto& person = film.frames[0].people[0];
  for (int i = 0; i < 21; ++i) person.left_hand.push_back({700.0 + i, 800, none, 0.5});
  const auto with = assembled(film);
  REQUIRE(with);
  CHECK(x_of(person_in(*with), lead(Joint::wrist)) == 700);  // the body has none
  CHECK(x_of(person_in(*with), lead(Joint::little_4)) == 720);
  person.body.clear();
  CHECK(to_string(assembled(film).error()) ==
        "film.json: holds the points of hands only, without a body (export the body's points too)");
}

TEST_CASE("assembly: names that mean no body, or an animal's") {
  auto film = film_of(standing(500, 300, 400));
  film.names = {"p0", "p1", "p2", "p3", "p4", "p5", "p6"};
  CHECK(to_string(assembled(film).error()) ==
        "film.json: names its points \"p0\", \"p1\", \"p2\", \"p3\", …: 0 of all its names are "
        "joints of a human body, too few to follow a golfer (write it in the plain form that "
        "README shows)");
  film.names = names;
  film.names[0] = "tail_base";
  CHECK(to_string(assembled(film).error()) ==
        "film.json: has a point \"tail_base\", which no human body has");
}

TEST_CASE("assembly: points in space from any axes come out alike") {
  using Part = double (*)(double, double, double);
  struct Axes {
    SpaceAxes axes;
    double unit_m;
    Part x, y, z;  ///< of the file, from camera axes of a golfer who looks at the camera
  };
  const Part x = [](double a, double, double) { return a; };
  const Part y = [](double, double b, double) { return b; };
  const Part z = [](double, double, double c) { return c; };
  const Part up = [](double, double b, double) { return -b; };
  const Part back = [](double, double, double c) { return -c; };
  const Part x_mm = [](double a, double, double) { return 1000 * a; };
  const Part y_mm = [](double, double b, double) { return 1000 * b; };
  const Part z_mm = [](double, double, double c) { return 1000 * c; };
  const Axes table[] = {
      {SpaceAxes::camera, 1, x, y, z},
      {SpaceAxes::camera, 0.001, x_mm, y_mm, z_mm},
      {SpaceAxes::camera_up, 1, x, up, z},
      {SpaceAxes::world_z_up, 1, x, z, up},  // the golfer looks along −y
      {SpaceAxes::world_z_up, 1, z, [](double a, double, double) { return -a; }, up},  // along −x
      {SpaceAxes::world_y_up, 1, x, up, back},                                         // along z
      {SpaceAxes::world_y_down, 1, x, y, z}};
  for (const Axes& axes : table) {
    CAPTURE(static_cast<int>(axes.axes));
    RawFilm film = film_of({});
    film.frames[0].people[0].space = body_in_space(axes.x, axes.y, axes.z);
    film.space = {SpaceSource::several_cameras, axes.axes, axes.unit_m};
    const auto read = assembled(film);
    REQUIRE(read);
    CHECK(read->picture_is_drawn);
    CHECK(read->space == SpaceSource::several_cameras);
    const auto& space = person_in(*read).space;
    CHECK_CLOSE(space[lead(Joint::shoulder)]->x_m, 0.2, 1e-9);
    CHECK_CLOSE(space[centre(Joint::nose)]->y_m, -0.7, 1e-9);
    CHECK_CLOSE(space[lead(Joint::knee)]->z_m, -0.05, 1e-9);
  }
}

TEST_CASE("assembly: points in space of no known size are made a grown person's") {
  RawFilm film = film_of({});
  film.names.push_back("left_ankle");
  film.names.push_back("right_ankle");
  auto& space = film.frames[0].people[0].space;
  for (const auto& point : standing(0, 0, 50)) space.push_back({point.x, point.y, 0, none});
  space.push_back({6.5, 95, 0, none});
  space.push_back({-6.5, 95, 0, none});
  film.space = {SpaceSource::one_camera, SpaceAxes::camera, 0};
  const auto read = assembled(film);
  REQUIRE(read);
  const auto& found = person_in(*read).space;
  const auto length = [&](Joint a, Joint b) {
    const auto &p = *found[lead(a)], &q = *found[lead(b)];
    return std::hypot(p.x_m - q.x_m, p.y_m - q.y_m, p.z_m - q.z_m);
  };
  // 0.288 + 0.245 + 0.246 of a stature of 1.7 m.
  CHECK_CLOSE(length(Joint::shoulder, Joint::hip) + length(Joint::hip, Joint::knee) +
                  length(Joint::knee, Joint::ankle),
              1.3243, 1e-4);
}

TEST_CASE("assembly: a drawn picture is the pinhole's of a camera where the axes put it") {
  RawFilm film = film_of({});
  auto& space = film.frames[0].people[0].space;
  for (const auto& point : standing(0.3, -0.8, 1)) space.push_back({point.x, point.y, 3, none});
  const auto read = assembled(film);
  REQUIRE(read);
  const Person& person = person_in(*read);
  // One focal length for all points: (x − width / 2) · z / X.
  const double width = read->image->width_px, height = read->image->height_px;
  const double focal = (x_of(person, lead(Joint::shoulder)) - width / 2) * 3 / 0.5;
  CHECK_CLOSE((x_of(person, trail(Joint::hip)) - width / 2) * 3 / 0.18, focal, 1e-6);
  CHECK_CLOSE((person.image[centre(Joint::nose)]->at.y_px - height / 2) * 3 / -0.8, focal, 1e-6);
  CHECK(width == 1000);
}

TEST_CASE("assembly: a left-hander's film in space is turned over as any other") {
  RawFilm film = film_of({});
  auto& space = film.frames[0].people[0].space;
  for (const auto& point : standing(0.3, -0.8, 1)) space.push_back({point.x, point.y, 3, none});
  ReadOptions options;
  options.handedness = Handedness::left;
  const Film read = assemble(film, options, Spot("film.json"));
  const Person& person = person_in(read);
  CHECK_CLOSE(person.space[lead(Joint::shoulder)]->x_m, -0.1, 1e-9);  // his right one
  CHECK(x_of(person, lead(Joint::shoulder)) > x_of(person, trail(Joint::shoulder)));
}
