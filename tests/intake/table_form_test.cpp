// SPDX-License-Identifier: MIT
// The plain form as a table, as a person or a spreadsheet may have left it.
#include <doctest/doctest.h>

#include "fixture.hpp"
#include "said.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;

namespace {

Result<Film> read_csv(const std::string& text, std::optional<ImageSize> image = portrait,
                      Handedness handedness = Handedness::right) {
  return read_landmarks({{"film.csv", text}}, image, handedness);
}

std::string csv_error(const std::string& text) {
  const auto film = read_csv(text);
  REQUIRE_FALSE(film);
  return to_string(film.error());
}

}  // namespace

TEST_CASE("a table of the fewest columns, in any order of columns and rows") {
  const auto film = read_csv(
      "point,frame,y,x\n"
      "right_hip,1,900,520\n"
      "left_hip,0,901.5,600\n"
      "LShoulder,0,500,610\n");
  if (!film) FAIL(to_string(film.error()));
  CHECK(film->dialect == "table of points, in pixels");
  REQUIRE(film->frames.size() == 2);
  CHECK(film->frames[0].number == 0);
  CHECK(x_of(person_in(*film, 0), lead(Joint::hip)) == 600);
  CHECK(x_of(person_in(*film, 0), lead(Joint::shoulder)) == 610);
  CHECK(x_of(person_in(*film, 1), trail(Joint::hip)) == 520);
  CHECK(person_in(*film, 1).image[trail(Joint::hip)]->at.y_px == 900);
  CHECK_FALSE(film->confidence_given);
}

TEST_CASE("people are told apart by their number, and rows without a point are empty frames") {
  const auto film = read_csv(
      "frame,time,person,track,point,x,y,confidence\n"
      "4,0.25,2,7,nose,700,300,0.5\n"
      "4,0.25,1,,nose,300,310,0.75\n"
      "6,0.5,,,,,,\n");
  if (!film) FAIL(to_string(film.error()));
  REQUIRE(film->frames.size() == 2);
  REQUIRE(film->frames[0].people.size() == 2);
  CHECK(x_of(film->frames[0].people[0], centre(Joint::nose)) == 300);
  CHECK(x_of(film->frames[0].people[1], centre(Joint::nose)) == 700);
  CHECK(film->frames[0].people[1].track == 7);
  CHECK(film->frames[0].people[1].image[centre(Joint::nose)]->confidence == 0.5);
  CHECK(film->frames[1].number == 6);
  CHECK(film->frames[1].people.empty());
  CHECK(film->frames[1].time->in_seconds() == 0.5);
}

TEST_CASE("a spreadsheet's own habits: byte-order mark, CRLF, semicolons, decimal commas, quotes") {
  const auto film = read_csv(
      "\xEF\xBB\xBF\"fact\";\"value\";\"frame\";\"point\";\"x\";\"y\";\"confidence\"\r\n"
      "image-width;1080;;;;;\r\n"
      "image-height;1920;;;;;\r\n"
      "frame-rate;239,76;;;;;\r\n"
      "picture-is-drawn;FALSE;;;;;\r\n"
      "note;'=1+1;;;;;\r\n"
      ";;0;left_knee;612,5;1210;0,97\r\n"
      ";;0;right_knee;NaN;;\r\n",
      std::nullopt);
  if (!film) FAIL(to_string(film.error()));
  CHECK(film->image->width_px == 1080);
  CHECK(film->image->height_px == 1920);
  CHECK(*film->frame_rate_hz == 239.76);
  CHECK_FALSE(film->picture_is_drawn);
  CHECK(in_english(film->notes) == std::vector<std::string>{"=1+1"});
  CHECK(x_of(person_in(*film), lead(Joint::knee)) == 612.5);
  CHECK(person_in(*film).image[lead(Joint::knee)]->confidence == 0.97);
  CHECK_FALSE(person_in(*film).image.has(trail(Joint::knee)));
}

TEST_CASE("points in space, with what saw them") {
  const auto film = read_csv(
      "fact,value,frame,point,x,y,space_x,space_y,space_z,space_confidence\n"
      "space-source,depth-camera,,,,,,,,\n"
      ",,0,left_knee,612,1210,0.25,0.5,2,0.5\n");
  if (!film) FAIL(to_string(film.error()));
  CHECK(film->space == SpaceSource::depth_camera);
  const auto& knee = person_in(*film).space[lead(Joint::knee)];
  REQUIRE(knee);
  CHECK(knee->x_m == 0.25);
  CHECK(knee->y_m == 0.5);
  CHECK(knee->z_m == 2);
  CHECK(knee->confidence == 0.5);
}

TEST_CASE("what was converted is taken at its word: places of 0, confidences of 0") {
  const std::string rows = ",,0,nose,0,0,0\n,,0,neck,0.5,0.75,0\n";
  const auto converted =
      read_csv("fact,value,frame,point,x,y,confidence\nread-from,a form,,,,,\n" + rows);
  if (!converted) FAIL(to_string(converted.error()));
  CHECK(converted->dialect == "a form");
  CHECK(x_of(person_in(*converted), centre(Joint::nose)) == 0);
  CHECK(x_of(person_in(*converted), centre(Joint::neck)) == 0.5);
  CHECK(person_in(*converted).image[centre(Joint::neck)]->confidence == 0);
  // By hand the same is a point that was not seen, and a fraction of the picture without scores.
  const auto by_hand = read_csv("fact,value,frame,point,x,y,confidence\n" + rows);
  if (!by_hand) FAIL(to_string(by_hand.error()));
  CHECK_FALSE(person_in(*by_hand).image.has(centre(Joint::nose)));
  CHECK(x_of(person_in(*by_hand), centre(Joint::neck)) == 0.5 * portrait.width_px);
  CHECK(person_in(*by_hand).image[centre(Joint::neck)]->confidence == 1);
}

TEST_CASE("a left-hander's table is turned over as any film is") {
  const auto film = read_csv("frame,point,x,y\n0,left_knee,612,1210\n", portrait, Handedness::left);
  REQUIRE(film);
  CHECK(x_of(person_in(*film), trail(Joint::knee)) == portrait.width_px - 612);
}

TEST_CASE("what is wrong in a table is said with its line and column") {
  CHECK(csv_error("frame,point,x,y\n0,nose,12;5,3\n") ==
        "film.csv:2: x: should be a number, is \"12;5\" (leave the cell empty where nothing was "
        "seen)");
  CHECK(csv_error("frame,point,x,y\n0,nose,1,3\n\n0,left_kne,1,3\n") ==
        "film.csv:4: point: there is no point \"left_kne\" (did you mean left_knee?)");
  CHECK(csv_error("frame,point,x,y\n,nose,1,3\n") == "film.csv:2: frame: the row says no frame");
  CHECK(csv_error("frame,point,x,y\n1.5,nose,1,3\n") ==
        "film.csv:2: frame: should be a whole number from 0");
  CHECK(csv_error("frame,point,x,y\n0,nose,1,3\n0,nose,1,3\n") ==
        "film.csv:3: x: the point stands there twice for this person and frame (number the people "
        "of a frame in the column person)");
  CHECK(csv_error("frame,time,point,x,y\n0,1,nose,1,3\n0,2,neck,1,3\n") ==
        "film.csv:3: time: is another time than in the frame's rows before");
  CHECK(csv_error("frame,track,point,x,y\n0,1,nose,1,3\n0,2,neck,1,3\n") ==
        "film.csv:3: track: is another track than in the person's rows before");
  CHECK(csv_error("frame,point,x,y,confidense\n0,nose,1,3,1\n") ==
        "film.csv:1: there is no column \"confidense\" (did you mean confidence?)");
  CHECK(csv_error("frame,point,x,x\n0,nose,1,3\n") ==
        "film.csv:1: x: this column stands there twice");
  CHECK(csv_error("frame,point,x\n0,nose,1\n") ==
        "film.csv:1: y: the first line has no column of this name (the columns needed are frame, "
        "point, x and y)");
  CHECK(csv_error("frame,point,x,y\n0,nose,1,3,4\n") ==
        "film.csv:2: has more cells than the header has columns");
  CHECK(csv_error("frame,point,x,y\n0,\"nose,1,3\n") ==
        "film.csv:2: a quotation mark is opened and never closed");
  CHECK(csv_error("fact,value,frame,point,x,y\nimage-with,1080,,,,\n") ==
        "film.csv:2: fact: there is no such fact (did you mean image-width?)");
  CHECK(csv_error("fact,value,frame,point,x,y\nimage-width,1080,,,,\n,,0,nose,10,20\n") ==
        "film.csv: the picture has only one of image-width and image-height (give both)");
  CHECK(csv_error("frame,point,x,y\n") == "film.csv: holds no frames");
}

TEST_CASE("a table of another kind is no table of points") {
  const auto film = read_csv("name,handedness\nann,left\n");
  REQUIRE_FALSE(film);
  CHECK(film.error().fault == Fault::unreadable);
}
