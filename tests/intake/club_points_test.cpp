// SPDX-License-Identifier: MIT
// Club and ball from a detector's file and from a person's clicks.
#include "intake/club_points.hpp"

#include <fmt/format.h>

#include "fixture.hpp"
#include "said.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;

namespace {

/// A golfer in the middle and a coach at the right edge; with `hands_up` from frame 4 on.
std::string person(double x, double height, double hands_y) {
  const auto at = [&](double dx, double y) { return fmt::format("[{}, {}]", x + dx, y); };
  return fmt::format(
      R"({{"points": {{"nose": {}, "left_wrist": {}, "right_wrist": {}, "left_hip": {},
          "right_hip": {}, "left_ankle": {}, "right_ankle": {}}}}})",
      at(0, 1700 - height), at(5, hands_y), at(-5, hands_y + 4), at(60, 1700 - height / 2),
      at(-60, 1700 - height / 2), at(80, 1700), at(-80, 1700));
}

Film golfer_and_coach(Handedness handedness = Handedness::right, const std::string& more = "") {
  std::string frames;
  for (int f = 0; f < 8; ++f) {
    if (f > 0) frames += ',';
    frames += fmt::format(R"({{"frame": {}, "people": [{}, {}]}})", f, person(900, 700, 1250),
                          person(500, 1200, f < 4 ? 1150 : 600));
  }
  const auto film = read(R"({"format": "rangecheck-landmarks", "version": 1,
      "image": {"width": 1000, "height": 2000})" +
                             more + R"(, "frames": [)" + frames + "]}",
                         std::nullopt, handedness);
  REQUIRE(film);
  return *film;
}

/// The golfer's part of each frame; the coach stands right of him, who is the first of the file.
const Person& golfer(const Film& film, std::size_t frame) { return film.frames[frame].people[1]; }
const Person& coach(const Film& film, std::size_t frame) { return film.frames[frame].people[0]; }

double x_of(const Person& person, Joint joint) {
  REQUIRE(person.image.has(centre(joint)));
  return person.image[centre(joint)]->at.x_px;
}

Result<ClubFilm> read_club(const std::string& json, const Film& film,
                           Handedness handedness = Handedness::right) {
  return read_club_film({{"club.json", json}}, film, handedness);
}

/// The film with the detector's points laid to it.
Film with_club(const std::string& json, Film film) {
  const auto club = read_club(json, film);
  if (!club) FAIL(to_string(club.error()));
  const auto error = add_club_film(*club, std::nullopt, film);
  if (error) FAIL(to_string(*error));
  return film;
}

/// The same objects in all eight frames.
std::string in_all_frames(const std::string& objects) {
  std::string frames;
  for (int f = 0; f < 8; ++f) {
    frames += fmt::format(R"({}{{"frame": {}, "objects": [{}]}})", f == 0 ? "" : ",", f, objects);
  }
  return R"({"frames": [)" + frames + "]}";
}

std::string club_error(const std::string& json) {
  const auto club = read_club(json, golfer_and_coach());
  REQUIRE_FALSE(club);
  return to_string(club.error());
}

bool mentions(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("club: names that detectors use") {
  CHECK(club_point_named("grip_end") == Joint::grip_end);
  CHECK(club_point_named("GripEnd") == Joint::grip_end);
  CHECK(club_point_named("grip") == Joint::grip_end);
  CHECK(club_point_named("Golf Ball") == Joint::ball);
  CHECK(club_point_named("clubhead") == Joint::club_toe);
  CHECK(club_point_named("club_head") == Joint::club_toe);
  CHECK(club_point_named("toe") == Joint::club_toe);
  CHECK(club_point_named("hosel") == Joint::hosel);
  CHECK(club_point_named("mid_shaft") == Joint::shaft_mid);
  // Either end, for all that its name says.
  CHECK_FALSE(club_point_named("shaft_end"));
  CHECK_FALSE(club_point_named("left_wrist"));
}

TEST_CASE("club: objects of named points, in pixels or fractions") {
  const Film pixels = with_club(
      in_all_frames(R"({"grip": [505, 1130, 0.9], "toe": [540, 1690, 0.8], "nose": [1, 2, 0.5]})"),
      golfer_and_coach());
  CHECK(x_of(golfer(pixels, 0), Joint::grip_end) == 505);
  CHECK(golfer(pixels, 0).image[centre(Joint::club_toe)]->confidence == 0.8);
  const Film fractions =
      with_club(in_all_frames(R"({"grip": [0.505, 0.565, 0.9], "toe": [0.54, 0.845, 0.8]})"),
                golfer_and_coach());
  CHECK_CLOSE(x_of(golfer(fractions, 0), Joint::grip_end), 505, 1e-9);
  CHECK_CLOSE(golfer(fractions, 0).image[centre(Joint::club_toe)]->at.y_px, 1690, 1e-9);
}

TEST_CASE("club: plain form, lists of named points, data sets and tables") {
  const std::string plain = R"({"format": "rangecheck-landmarks", "version": 1,
    "image": {"width": 500, "height": 1000}, "frames": [{"frame": 2, "people": [{"points":
    {"grip_end": [252.5, 565], "club_toe": [270, 845, 0.8]}}]}]})";
  // Read from a smaller copy of the film.
  CHECK(x_of(golfer(with_club(plain, golfer_and_coach()), 2), Joint::grip_end) == 505);

  const std::string listed = R"([{"keypoints": [{"name": "grip_end", "x": 505, "y": 1130,
    "score": 0.9}, {"name": "club_head", "x": 540, "y": 1690, "score": 0.8}]}])";
  CHECK(x_of(golfer(with_club(listed, golfer_and_coach()), 0), Joint::club_toe) == 540);

  const std::string data_set = R"({"images": [{"id": 7, "file_name": "0003.jpg", "width": 1000,
    "height": 2000}], "categories": [{"id": 1, "name": "person", "keypoints": ["nose"]},
    {"id": 2, "name": "club", "keypoints": ["grip", "hosel", "toe"]},
    {"id": 3, "name": "ball", "keypoints": ["ball"]}], "annotations": [
    {"id": 1, "image_id": 7, "category_id": 2, "keypoints": [505, 1130, 2, 0, 0, 0, 540, 1690, 1]},
    {"id": 2, "image_id": 7, "category_id": 3, "keypoints": [520, 1700, 2]},
    {"id": 3, "image_id": 7, "category_id": 1, "keypoints": [500, 500, 2]}]})";
  const Film marked = with_club(data_set, golfer_and_coach());
  CHECK(x_of(golfer(marked, 3), Joint::grip_end) == 505);
  CHECK_FALSE(golfer(marked, 3).image.has(centre(Joint::hosel)));
  CHECK(golfer(marked, 3).image[centre(Joint::club_toe)]->confidence == 0.5);
  CHECK(x_of(golfer(marked, 3), Joint::ball) == 520);
  CHECK_FALSE(golfer(marked, 2).image.has(centre(Joint::ball)));

  const std::string table = "frame,point,x,y\n1,grip_end,505,1130\n1,club_toe,540,1690\n";
  CHECK(x_of(golfer(with_club(table, golfer_and_coach()), 1), Joint::club_toe) == 540);
}

TEST_CASE("club: everyone has the club in their own hands, whichever comes first") {
  const std::string coachs = R"({"grip": [902, 1240], "toe": [880, 1690]})";
  const std::string golfers = R"({"grip": [503, 1140], "toe": [560, 1690]})";
  for (const auto& objects : {coachs + "," + golfers, golfers + "," + coachs}) {
    const Film film = with_club(in_all_frames(objects), golfer_and_coach());
    CHECK(x_of(golfer(film, 0), Joint::grip_end) == 503);
    CHECK(x_of(golfer(film, 0), Joint::club_toe) == 560);
    CHECK(x_of(coach(film, 0), Joint::grip_end) == 902);
    CHECK(x_of(coach(film, 0), Joint::club_toe) == 880);
    // The golfer's hands are up from frame 4 on, and this club still lies where it lay.
    CHECK_FALSE(golfer(film, 5).image.has(centre(Joint::grip_end)));
  }
}

TEST_CASE("club: a head that stays whether the hands are up or down lies on the ground") {
  std::string frames;
  for (int f = 0; f < 8; ++f) {
    const std::string held = f < 4 ? R"({"toe": [560, 1690]})" : R"({"toe": [200, 400]})";
    frames += fmt::format(R"({}{{"frame": {}, "objects": [{{"toe": [420, 1100]}}, {}]}})",
                          f == 0 ? "" : ",", f, held);
  }
  const Film film = with_club(R"({"frames": [)" + frames + "]}", golfer_and_coach());
  CHECK(x_of(golfer(film, 0), Joint::club_toe) == 560);
  CHECK(x_of(golfer(film, 6), Joint::club_toe) == 200);
}

TEST_CASE("club: the ball is the one that the head is set down by, and lies still") {
  std::string frames;
  for (int f = 0; f < 8; ++f) {
    frames += fmt::format(
        R"({}{{"frame": {}, "objects": [{{"ball": [700, 1650]}}, {{"ball": [{}, {}]}},
            {{"grip": [503, {}], "toe": [560, {}]}}{}]}})",
        f == 0 ? "" : ",", f, 100 + 100 * f, 1600 - 100 * f, f < 4 ? 1140 : 590, f < 4 ? 1690 : 200,
        f < 6 ? R"(, {"ball": [590, 1700]})" : "");
  }
  const Film film = with_club(R"({"frames": [)" + frames + "]}", golfer_and_coach());
  CHECK(x_of(golfer(film, 0), Joint::ball) == 590);
  CHECK(x_of(golfer(film, 5), Joint::ball) == 590);
  CHECK_FALSE(golfer(film, 7).image.has(centre(Joint::ball)));  // hit
}

TEST_CASE("club: a left-hander's is turned over like everything else") {
  Film film = golfer_and_coach(Handedness::left);
  const auto club = read_club(in_all_frames(R"({"grip": [505, 1130]})"), film, Handedness::left);
  REQUIRE(club);
  CHECK_FALSE(add_club_film(*club, std::nullopt, film));
  CHECK(x_of(golfer(film, 0), Joint::grip_end) == 495);
  const std::vector<Click> clicks{{0, {}, {{Joint::ball, {520, 1700}}}, {}}};
  CHECK_FALSE(add_clicks(clicks, std::nullopt, Handedness::left, film));
  CHECK(x_of(golfer(film, 0), Joint::ball) == 480);
}

TEST_CASE("club: clicks go over the detector's points, and these over the film's own") {
  Film film = golfer_and_coach();
  film.frames[0].people[1].image[centre(Joint::grip_end)] = Sighting{{300, 300}, 0.4};
  film.frames[0].people[1].image[centre(Joint::shaft_mid)] = Sighting{{510, 1300}, 0.4};
  film = with_club(in_all_frames(R"({"grip": [505, 1130, 0.9], "toe": [540, 1690, 0.8]})"), film);
  CHECK(x_of(golfer(film, 0), Joint::grip_end) == 505);
  CHECK(x_of(golfer(film, 0), Joint::shaft_mid) == 510);
  const std::vector<Click> clicks{{0, {}, {{Joint::club_toe, {545, 1688}}}, {}}};
  CHECK_FALSE(add_clicks(clicks, std::nullopt, Handedness::right, film));
  CHECK(x_of(golfer(film, 0), Joint::club_toe) == 545);
  CHECK(golfer(film, 0).image[centre(Joint::club_toe)]->confidence == 1);
  REQUIRE(film.notes.size() == 2);
  CHECK(film.notes[0] ==
        "club and ball are from club.json in 4 of 8 frames, matched by frame numbers");
  CHECK(film.notes[1] == "1 point of club and ball in 1 frame marked by a person");
}

TEST_CASE("club: what is wrong with a detector's file is said") {
  CHECK(mentions(club_error(R"([{"keypoints": [{"name": "wing", "x": 5, "y": 6, "score": 1}]}])"),
                 "has no point of a club or a ball, only \"wing\" (points are ball, grip_end, "
                 "hands_mid, shaft_mid, hosel and club_toe)"));
  CHECK(mentions(club_error(in_all_frames(R"({"grip": [0, 0, 0]})")),
                 "neither club nor ball in any frame"));
  CHECK(mentions(club_error("[]"), "holds no frames"));
  CHECK(mentions(club_error(R"({"frames": []})"), "holds no frames"));
  CHECK(mentions(club_error(R"({"frames": [{"objects": []}, {"objects": []}]})"),
                 "neither club nor ball in any frame"));
  CHECK(mentions(club_error(R"([{"image_id": 0, "keypoints": [1, 2, 1, 3, 4, 1]}])"),
                 "has no names that tell club from ball"));
}

TEST_CASE("club: frames that can't be laid to the film's are refused with what to do") {
  Film film = golfer_and_coach();
  const auto club = read_club(R"({"frames": [{"frame": 90, "objects": [{"grip": [505, 1130]}]},
      {"frame": 91, "objects": [{"grip": [505, 1130]}]}]})",
                              film);
  REQUIRE(club);
  const auto error = add_club_film(*club, std::nullopt, film);
  REQUIRE(error);
  CHECK(mentions(to_string(*error), "it has 2 frames, 90 to 91, the film has 8 frames, 0 to 7"));
  CHECK(mentions(error->remedy, "frame-rate"));
}

TEST_CASE("club: a click by time is the frame's of that time") {
  Film film = golfer_and_coach(Handedness::right, R"(, "frame-rate": 10)");
  const std::vector<Click> clicks{{{}, Duration::seconds(0.31), {{Joint::ball, {520, 1700}}}, {}}};
  CHECK_FALSE(add_clicks(clicks, std::nullopt, Handedness::right, film));
  CHECK(x_of(golfer(film, 3), Joint::ball) == 520);
  const std::vector<Click> late{{{}, Duration::seconds(9), {{Joint::ball, {520, 1700}}}, {}}};
  const auto error = add_clicks(late, std::nullopt, Handedness::right, film);
  REQUIRE(error);
  CHECK(mentions(to_string(*error), "the film has no such frame (its frames are 0 to 7"));
}
