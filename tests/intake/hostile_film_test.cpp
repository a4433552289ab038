// SPDX-License-Identifier: MIT
// Landmark files as nobody writes them by accident: each ends in an error that says file, place and
// what to do, in bounded memory, or is read for what it says. The limits stand in raw_film.hpp,
// json_text.hpp and value.cpp; none has an outside source.
#include <fmt/format.h>
#include <sys/resource.h>

#include <cmath>

#include "fixture.hpp"
#include "intake/raw_film.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;

namespace {

std::string plain(const std::string& frames) {
  return R"({"format":"rangecheck-landmarks","version":1,"image":{"width":1000,"height":2000},)"
         R"("frames":[)" +
         frames + "]}";
}

std::string plain_person(const std::string& points) { return R"({"points":{)" + points + "}}"; }

/// A person of the one-array form at frame `picture`.
std::string entry(int picture) {
  return R"({"image_id":)" + std::to_string(picture) + R"(,"category_id":1,"keypoints":[)" +
         triples(17, 400) + R"(],"score":1})";
}

/// What makes an object one of points by name.
const std::string hips_and_knees =
    R"("left_hip":[1,2,1],"right_hip":[1,2,1],"left_knee":[1,2,1],"right_knee":[1,2,1])";

/// The most memory that this process ever had, in MiB.
double peak_mib() {
  rusage used{};
  ::getrusage(RUSAGE_SELF, &used);
  return static_cast<double>(used.ru_maxrss) / 1024;
}

}  // namespace

TEST_CASE("hostile film: more people than anyone films") {
  CHECK(read('[' + repeated(entry(0), int(most_people_in_frame)) + ']'));
  CHECK(error_of('[' + repeated(entry(0), int(most_people_in_frame) + 1) + ']') ==
        "film.json: frame 0: /200: has more than 200 people in one picture (export the golfer "
        "alone)");
  CHECK(error_of(plain(R"({"people":[)" +
                       repeated(plain_person(R"("nose":[1,2])"), int(most_people_in_frame) + 1) +
                       "]}")) ==
        "film.json: frame 0: /frames/0/people/200: has more than 200 people in one picture "
        "(export the golfer alone)");
  const std::string body = '[' + repeated(R"({"x":0.5,"y":0.5,"z":0,"visibility":1})", 33) + ']';
  CHECK(
      error_of(R"([{"pose_landmarks":[)" + repeated(body, int(most_people_in_frame) + 1) + "]}]") ==
      "film.json: frame 0: /0/pose_landmarks/200: has more than 200 people in one picture "
      "(export the golfer alone)");
}

TEST_CASE("hostile film: a million people take no more memory than their text") {
  // Read whole, each would take some kilobytes: together more than 5 GiB.
  const std::string text =
      plain(R"({"people":[)" + repeated(plain_person(R"("nose":[1,2])"), 1'000'000) + "]}");
  const double before_mib = peak_mib();
  CHECK(error_of(text).find("has more than 200 people in one picture") != std::string::npos);
  constexpr double most_mib = 1500;  // of the text's tape; sanitizers included
  CHECK(peak_mib() - before_mib < most_mib);
}

TEST_CASE("hostile film: more people in all frames, and more frames, than a film has") {
  std::string entries;
  const std::string points = repeated("1", 51);
  for (std::size_t i = 0; i <= most_people_in_film; ++i)
    entries += (i == 0 ? "" : ",") + (R"({"image_id":)" + std::to_string(i / 200)) +
               R"(,"category_id":1,"keypoints":[)" + points + R"(],"score":1})";
  CHECK(
      error_of('[' + entries + ']') ==
      "film.json: is after 100000 people in the frames before (cut the film to the swing itself)");
  CHECK(error_of(plain(repeated("{}", int(most_frames) + 1))) ==
        "film.json: frame 100000: /frames/100000: holds more than 100000 frames (cut the film to "
        "the swing itself)");
}

TEST_CASE("hostile film: more points than any estimator has") {
  std::string named, numbers = "1";
  for (int i = 0; i < 2001; ++i) named += ",\"point_" + std::to_string(i) + R"(":{"x":1,"y":2})";
  CHECK(error_of("[{" + hips_and_knees + named + "}]") ==
        "film.json: frame 0: /0/point_1996: is one of more points than any estimator has");
  std::string columns;
  for (int i = 0; i < 2001; ++i)
    columns += (i == 0 ? "" : ",") + ("\"point_" + std::to_string(i)) + R"(":[[1,2]])";
  CHECK(error_of(R"({"landmarks":{"left_hip":[[1,2]],)" + columns + "}}") ==
        "film.json: /landmarks/point_1999: is one of more points than any estimator has");
  for (int i = 1; i < 3'000'000; ++i) numbers += ",1";
  CHECK(error_of(R"([{"image_id":0,"category_id":1,"keypoints":[)" + numbers + R"(],"score":1}])")
            .starts_with("film.json: has 1000000 points a person; known "));
}

TEST_CASE("hostile film: more points in all frames than a film has") {
  // 85 columns of 95 000 nulls: eight million points and some, and none of them seen.
  const std::string column = ":[[1,2]," + repeated("null", 94'999) + ']';
  std::string columns = "\"left_hip\"" + column;
  for (int i = 1; i < 85; ++i) columns += ",\"p" + std::to_string(i) + '"' + column;
  CHECK(error_of(R"({"landmarks":{)" + columns + "}}") ==
        "film.json: /landmarks/p84: is after 8000000 points of the film (cut the film to the swing "
        "itself)");
}

TEST_CASE("hostile film: lists longer than the parser can count") {
  // simdjson counts to 0xFFFFFF; a reader that sized its list by that wrote beyond its end.
  std::string ones(2 * 0x1000000 - 1, ',');
  for (std::size_t i = 0; i < ones.size(); i += 2) ones[i] = '1';
  CHECK(error_of(R"([{"keypoints":{"x":[)" + ones + R"(],"y":[1]}}])") ==
        "film.json: holds more than 16 million values (cut the film to the swing itself)");
}

TEST_CASE("hostile film: names that grow from person to person") {
  // A list as long as all names before, for each person of one name: 2000 names are the most.
  std::string frames;
  for (int i = 0; i < 20'000; ++i) {
    const std::string name = ",\"name_" + std::to_string(i) + "\"";
    frames += (i == 0 ? "[{" : ",[{") + hips_and_knees + name + ":[1,2,1]}]";
  }
  const double before_mib = peak_mib();
  CHECK(error_of('[' + frames + ']') ==
        "film.json: frame 1996: /1996/0/name_1996: is one of more points than any estimator has");
  CHECK(peak_mib() - before_mib < 1000);
}

TEST_CASE("hostile film: numbers that are none, or none of a picture") {
  CHECK(error_of("[-1e999]") == "film.json: holds a number too large for any film");
  CHECK(error_of("[123456789012345678901234567890]") ==
        "film.json: holds a number too large for any film");
  CHECK(error_of("[0x10]") == "film.json:1: isn't valid JSON");
  CHECK(error_of("[01]") == "film.json:1: isn't valid JSON");
  CHECK(error_of("[-]") == "film.json:1: isn't valid JSON");
  // Beyond a thousand million pixels there is no picture: such points are missing, others stay.
  const auto film = read(plain(R"({"people":[)" +
                               plain_person(R"("nose":[1e308,5],"left_hip":[1e9,-0.0],)"
                                            R"("right_hip":[-1e308,1e308],"left_knee":[NaN,3])") +
                               "]}"));
  REQUIRE(film);
  const auto& image = person_in(*film).image;
  CHECK_FALSE(image.has(centre(Joint::nose)));
  CHECK_FALSE(image.has(trail(Joint::hip)));
  CHECK_FALSE(image.has(lead(Joint::knee)));
  CHECK(image[lead(Joint::hip)]->at.x_px == 1e9);
}

TEST_CASE("hostile film: a body smaller than any number gives no unit of space") {
  // 25 points: shoulders, hips, knees and ankles below one another, a small step each.
  const auto body = [](double unit) {
    std::string points;
    for (int i = 0; i < 25; ++i)
      points += fmt::format("{}{},{},{},1", i == 0 ? "" : ",", unit * (i % 3), unit * i, 1 + unit);
    return R"({"people":[{"pose_keypoints_3d":[)" + points + "]}]}";
  };
  const auto film = read('[' + body(1e-100) + ',' + body(1e-100) + ',' + body(10) + ']');
  REQUIRE(film);
  for (std::size_t frame = 0; frame < 3; ++frame)
    for (const auto& point : person_in(*film, frame).space.values())
      if (point) CHECK(std::abs(point->x_m) + std::abs(point->y_m) + std::abs(point->z_m) < 100);
}

TEST_CASE("hostile film: a key twice is refused, wherever it is") {
  const std::string remedy = ": stands twice in one object (keep one of the two)";
  CHECK(error_of(R"({"format":"rangecheck-landmarks","version":1,"frames":[],"format":"x"})") ==
        "film.json: /format" + remedy);
  CHECK(error_of(plain(R"({"people":[)" + plain_person(R"("nose":[1,2],"nose":[3,4])") + "]}")) ==
        "film.json: /frames/0/people/0/points/nose" + remedy);
  CHECK(error_of(R"([{"a":1,"\u0061":2}])") == "film.json: /0/a" + remedy);
}

TEST_CASE("hostile film: text that is not UTF-8") {
  for (const std::string bytes : {
           "\xc0\xaf",          // overlong: RFC 3629, section 10
           "\xed\xa0\x80",      // a surrogate
           "\xf4\x90\x80\x80",  // above U+10FFFF
           "\x80",              // nothing before it
           "\xe2\x82",          // cut short
       }) {
    CAPTURE(bytes.size());
    CHECK(error_of("[\"" + bytes + "\"]") == "film.json:1: isn't valid JSON");
  }
  CHECK(error_of(R"(["\ud800"])") == "film.json:1: isn't valid JSON");
  CHECK(error_of(std::string("\xff\xfe[\0]\0", 6)) == "film.json:1: isn't valid JSON");
  // Two parsers differ on where the text ends, so that no line is known.
  CHECK(error_of(std::string("[1]\0", 4)) == "film.json: isn't valid JSON");
  CHECK(error_of("\xef\xbb\xbf\xef\xbb\xbf[1]") == "film.json: isn't valid JSON");
}

TEST_CASE("hostile film: errors stay short whatever the file names") {
  const std::string name(1'000'000, 'x');
  CHECK(error_of(R"({")" + name + R"(":{}})").size() < 300);
  CHECK(error_of(plain(R"({"people":[{"points":{")" + name + R"(":[1,2]}}]})")).size() < 400);
  CHECK(error_of(plain(R"({"people":[{")" + name + R"(":[1,2]}]})")).size() < 400);
  CHECK(
      error_of(plain(R"({"people":[{"points":{"\u001b[2J\n":[1,2]}}]})")).find_first_of("\n\x1b") ==
      std::string::npos);
}

TEST_CASE("hostile film: emptiness in every place") {
  for (const std::string text :
       {"[]", "{}", "null", "[[]]", "[{}]", "[null]", "[[[]]]", "[[{}]]", R"({"frames":[]})",
        R"({"frames":[[]]})", R"({"frames":[{"people":[]}]})", R"({"people":[]})",
        R"({"people":[{}]})", R"([{"image_id":0,"keypoints":[]}])",
        R"({"images":[],"annotations":[],"categories":[]})", R"({"landmarks":[[]]})",
        R"({"keypoints":[[]]})", R"({"instance_info":[]})", R"([{"keypoints":{}}])"}) {
    CAPTURE(text);
    const auto film = read(text);
    if (film) {
      for (const auto& frame : film->frames) CHECK(frame.people.empty());
    } else {
      CHECK(film.error().where.file == "film.json");
    }
  }
}

TEST_CASE("hostile film: tables") {
  const std::string head = "frame,person,point,x,y\n";
  CHECK(error_of(head + "0,1,\"nose,1,1\n") ==
        "film.json:2: a quotation mark is opened and never closed");
  std::string people = head;
  for (int i = 1; i <= int(most_people_in_frame) + 1; ++i)
    people += "0," + std::to_string(i) + ",nose,1,1\n";
  CHECK(error_of(people) == "film.json:202: person: is one of more than 200 people in one picture");
  std::string frames = head;
  for (int i = 0; i <= int(most_frames); ++i) frames += std::to_string(i) + ",,,,\n";
  CHECK(error_of(frames) ==
        "film.json: holds more than 100000 frames (cut the film to the swing itself)");
  std::string columns = "frame,point,x,y";
  for (int i = 0; i < 1'000'000; ++i) columns += ",c";
  CHECK(error_of(columns + "\n").size() < 300);
  CHECK(error_of(head + "0,1," + std::string(20'000'000, 'x') + ",1,1\n").size() < 300);
}

TEST_CASE("hostile film: times and rates of no film") {
  const std::string person = R"("keypoints":[)" + [] {
    std::string points;
    for (const auto* name : {"nose", "left_shoulder", "right_shoulder", "left_hip", "right_hip",
                             "left_knee", "right_knee", "left_ankle", "right_ankle"})
      points += (points.empty() ? "" : ",") +
                (R"({"x":100,"y":200,"score":1,"name":")" + std::string(name) + "\"}");
    return points;
  }() + "]";
  const auto at = [&](const std::string& time) {
    return R"({"timestamp":)" + time + R"(,"people":[{)" + person + "}]}";
  };
  REQUIRE(read('[' + at("1") + ',' + at("2") + ']'));
  // Their distance is more than a double holds: what looked for their unit never ended.
  CHECK(error_of('[' + at("-1.7e308") + ',' + at("1.7e308") + ']') ==
        "film.json: frame 0: has a time of -1.7e+308 s, which no film has (correct it in the file, "
        "or leave it out)");
  CHECK(error_of(R"({"fps":1e300,"frames":[)" + at("1") + ',' + at("2") + "]}") ==
        "film.json: says that it has 1e+300 frames a second, which no film has (correct it in the "
        "file, or leave it out)");
  CHECK(error_of(R"({"width":1e9,"height":1,"frames":[)" + at("1") + ',' + at("2") + "]}",
                 std::nullopt) ==
        "film.json: says that the picture is 1000000000 × 1, which no film is (correct it in the "
        "file, or leave it out)");
}
