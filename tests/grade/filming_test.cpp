// SPDX-License-Identifier: MIT
#include "grade/filming.hpp"

#include <fmt/format.h>

#include <fstream>
#include <sstream>

#include "folder.hpp"
#include "said.hpp"

namespace rangecheck::grade {
namespace {

using intake::View;

constexpr double deg = M_PI / 180;

const FilmJudgement& of(const FilmQuality& quality, std::string_view id) {
  for (const auto& one : quality.judged)
    if (one.criterion.id == id) return one;
  FAIL("no criterion ", id);
  return quality.judged.front();
}

/// A film in which nothing is wrong.
motion::FilmFacts good_facts() {
  motion::FilmFacts facts;
  facts.shows_swing = true;
  facts.pictures = 400;
  facts.rate_hz = 240;
  facts.lost_share = 0;
  facts.unevenness = 0.01;
  facts.still_s = 1;
  facts.height_share = motion::Fact{0.6, 0.01};
  facts.feet = facts.head = facts.hands = motion::Margin{{0.2, 0.02}, {0.15, 0.02}, 0};
  facts.jitter_share = 0.002;
  facts.hands_step = 0.04;
  facts.hands_kept = 0.9;
  facts.parts = {{motion::Part::head, 0.9, 0.9}, {motion::Part::feet, 0.8, 0.7}};
  return facts;
}

posture::CameraSeen good_camera() {
  return {View::face_on,      {1.0, 0.05},        {3, 0.1},
          {1 * deg, 1 * deg}, {5 * deg, 1 * deg}, {0.2 * deg, 0.5 * deg}};
}

FilmQuality judged(const motion::FilmFacts& facts,
                   const std::optional<posture::CameraSeen>& camera = good_camera(),
                   View view = View::face_on) {
  return judge_film(shipped_filming(), view, facts, camera);
}

TEST_CASE("filming: the shipped file reads, and is the one in profiles") {
  std::ifstream file(std::string(RANGECHECK_SOURCE_DIR) + "/profiles/filming.yaml");
  std::ostringstream text;
  text << file.rdbuf();
  CHECK(text.str() == shipped_filming_text());
  const auto read = read_filming(text.str(), "filming.yaml");
  REQUIRE_MESSAGE(bool(read), (read ? "" : to_string(read.error())));
  CHECK(read->of(View::face_on).size() == 14);
  CHECK(read->of(View::down_the_line).size() == 14);
  // Every criterion has words for both verdicts and advice that ends as a sentence does.
  for (const View view : {View::face_on, View::down_the_line})
    for (const auto& criterion : read->of(view)) {
      CAPTURE(criterion.id);
      CHECK_FALSE(criterion.when_fair.empty());
      CHECK_FALSE(criterion.when_poor.empty());
      CHECK(criterion.advice.ends_with("."));
    }
}

TEST_CASE("filming: a good film is good in everything") {
  const auto quality = judged(good_facts());
  for (const auto& one : quality.judged) {
    CAPTURE(one.criterion.id);
    CHECK(one.verdict == FilmVerdict::good);
    CHECK(one.reason == "");
  }
  CHECK(quality.verdict() == FilmVerdict::good);
}

TEST_CASE("filming: rates are poor, fair and good as they are told") {
  auto facts = good_facts();
  for (const auto& [rate_hz, verdict] : {std::pair{24.0, FilmVerdict::poor},
                                         {29.97, FilmVerdict::poor},
                                         {59.94, FilmVerdict::fair},
                                         {119.88, FilmVerdict::good},
                                         {240.0, FilmVerdict::good}}) {
    facts.rate_hz = rate_hz;
    CHECK(of(judged(facts), "frame-rate").verdict == verdict);
  }
  // A putt's hands are slow.
  facts.rate_hz = 30;
  facts.hands_step = 0.02;
  CHECK(of(judged(facts), "frame-rate").verdict == FilmVerdict::good);
  facts.rate_hz.reset();
  CHECK(of(judged(facts), "frame-rate").verdict == FilmVerdict::not_known);
  CHECK(of(judged(facts), "frame-rate").reason ==
        "nobody says how many pictures a second the film has");
}

TEST_CASE("filming: what matters to a swing is not asked of a film of the address") {
  auto facts = good_facts();
  facts.shows_swing = false;
  facts.rate_hz = 30;
  const auto quality = judged(facts);
  for (const auto id : {"frame-rate", "lost-frames", "uneven-frames", "blur", "hands-in-picture"}) {
    CHECK(of(quality, id).verdict == FilmVerdict::not_known);
    CHECK(of(quality, id).reason == "no swing was found in it");
  }
  CHECK_FALSE(of(quality, "frame-rate").value_si);
  CHECK(quality.verdict() == FilmVerdict::good);
}

TEST_CASE("filming: an address that the film breaks off may have been held longer") {
  auto facts = good_facts();
  facts.still_s = 0.2;
  CHECK(of(judged(facts), "still-address").verdict == FilmVerdict::poor);
  facts.still_longer = true;
  CHECK(of(judged(facts), "still-address").verdict == FilmVerdict::not_known);
  CHECK(of(judged(facts), "still-address").reason == "the film ends before a swing");
  facts.still_s = 0.6;
  CHECK(of(judged(facts), "still-address").verdict == FilmVerdict::good);
}

TEST_CASE("filming: a camera is called badly placed only when that is sure") {
  auto camera = good_camera();
  const auto height = [&](double metres, double u) {
    camera.height_m = {metres, u};
    return of(judged(good_facts(), camera), "camera-height").verdict;
  };
  CHECK(height(1.0, 0.1) == FilmVerdict::good);
  CHECK(height(1.8, 0.05) == FilmVerdict::poor);
  CHECK(height(0.2, 0.05) == FilmVerdict::poor);
  CHECK(height(1.45, 0.05) == FilmVerdict::fair);
  // As wide as one film leaves it.
  CHECK(height(1.6, 0.3) == FilmVerdict::not_known);
  CHECK(height(1.0, 0.3) == FilmVerdict::not_known);
  for (const double sign : {-1.0, 1.0}) {
    camera.off_square_rad = {sign * 14 * deg, 2 * deg};
    CHECK(of(judged(good_facts(), camera), "camera-square").verdict == FilmVerdict::poor);
    camera.off_square_rad = {sign * 14 * deg, 5 * deg};
    CHECK(of(judged(good_facts(), camera), "camera-square").verdict == FilmVerdict::fair);
    camera.roll_rad = {sign * 8 * deg, 1 * deg};
    CHECK(of(judged(good_facts(), camera), "camera-roll").verdict == FilmVerdict::poor);
  }
  const auto none = judged(good_facts(), std::nullopt);
  CHECK(of(none, "camera-height").verdict == FilmVerdict::not_known);
  CHECK(of(none, "camera-height").reason == "the film tells nothing of its camera");
}

TEST_CASE("filming: margins, and how much is cut off") {
  auto facts = good_facts();
  facts.feet = motion::Margin{{0.02, 0.02}, {-0.08, 0.02}, 0.4};
  facts.head = motion::Margin{{0.02, 0.02}, {0.01, 0.02}, 0};
  const auto quality = judged(facts);
  CHECK(of(quality, "feet-in-picture").verdict == FilmVerdict::poor);
  CHECK(of(quality, "feet-in-picture").detail == "in 40 % of the pictures");
  CHECK(of(quality, "head-in-picture").verdict == FilmVerdict::fair);
  CHECK(quality.verdict() == FilmVerdict::poor);
}

TEST_CASE("filming: the worst seen part counts, not the club; blur is what the hands lose") {
  auto facts = good_facts();
  facts.parts.push_back({motion::Part::club, 0.1, 0.1});
  facts.parts.push_back({motion::Part::arms, 0.2, 0.5});
  facts.hands_kept = 0.25;
  const auto quality = judged(facts);
  CHECK(of(quality, "confidence").verdict == FilmVerdict::poor);
  CHECK(of(quality, "confidence").detail == "the arms");
  CHECK(of(quality, "blur").verdict == FilmVerdict::poor);
  CHECK(*of(quality, "blur").value_si == 0.75);
  CHECK(of(quality, "blur").detail ==
        "hands move up to 4 % of the golfer's height between pictures");
  facts.hands_kept = 1.2;  // surer than at address
  CHECK(*of(judged(facts), "blur").value_si == 0);
}

TEST_CASE("filming: views have answers of their own") {
  const auto& filming = shipped_filming();
  const auto advice = [&](View view) {
    return of(judge_film(filming, view, good_facts(), std::nullopt), "camera-square")
        .criterion.advice;
  };
  CHECK(advice(View::face_on) != advice(View::down_the_line));
}

/// The head of a file, four lines long, and what its one criterion is made of.
std::string file_with(const std::string& rest) { return "version: 1\ncriteria:\n" + rest; }

std::string complaint(const std::string& text) {
  const Folder folder;
  folder.write("filming.yaml", text);
  return folder.complaint();
}

TEST_CASE("filming: faults are told with their line and the nearest word") {
  const std::string good = "    good: at-least 120\n    fair: at-least 50\n    advice: x\n";
  CHECK(complaint(file_with("  frame-rat:\n    title: Rate\n" + good)) ==
        "filming.yaml:3: criteria.frame-rat: there is no such criterion (did you mean "
        "frame-rate?)");
  CHECK(complaint(file_with("  frame-rate:\n    title: Rate\n    goood: 3\n" + good)) ==
        "filming.yaml:5: criteria.frame-rate.goood: there is no such key (did you mean good?)");
  CHECK(complaint(file_with("  frame-rate:\n" + good)) ==
        "filming.yaml:4: criteria.frame-rate.title: is missing (add this key)");
  CHECK(complaint(file_with("  camera-roll:\n    title: Roll\n    good: at-most 2 m\n")) ==
        "filming.yaml:5: criteria.camera-roll.good: \"2 m\" isn't an angle: it is a length (write "
        "a number and a unit: deg, rad)");
  CHECK(complaint(file_with("  frame-rate:\n    title: Rate\n    good: at-least 120\n"
                            "    fair: at-least 150\n    advice: x\n")) ==
        "filming.yaml:6: criteria.frame-rate.fair: does not hold all that is good (make it wider "
        "than good:)");
  CHECK(complaint(file_with("  frame-rate:\n    title: Rate\n    good: at-least 120\n"
                            "    fair: at-least 50\n")) ==
        "filming.yaml:4: criteria.frame-rate.advice: is missing (say how to film it better)");
  CHECK(complaint(file_with("  frame-rate:\n    title: Rate\n" + good +
                            "    face-on:\n      fair: at-most 3\n")) ==
        "filming.yaml:9: criteria.frame-rate.face-on.fair: does not hold all that is good (make "
        "it wider than good:)");
  CHECK(complaint(file_with("  frame-rate:\n    title: Rate\n" + good +
                            "    face-onn:\n      fair: at-most 3\n")) ==
        "filming.yaml:8: criteria.frame-rate.face-onn: there is no such key (did you mean "
        "face-on?)");
  CHECK(complaint("version: 1\nconfidence: 0.4\ncriteria: {}\n") ==
        "filming.yaml:2: confidence: must be more than 0.5 and less than 1");
  CHECK(complaint("version: 1\ncriteria: [a]\n") ==
        "filming.yaml:2: criteria: should be a map of keys and values, is a list");
  CHECK(complaint("version: 2\n").starts_with("filming.yaml:1: version: "));
}

TEST_CASE("filming: a coach's file takes the place of the shipped one, and of its hash") {
  const Folder folder;
  const auto shipped = folder.loaded();
  CHECK(shipped.filming.of(View::face_on).size() == 14);
  folder.write("filming.yaml",
               file_with("  frame-rate:\n    title: Rate\n    good: at-least 25\n"
                         "    fair: at-least 20\n    advice: Mine.\n"
                         "    down-the-line:\n      good: at-least 100\n      advice: Faster.\n"));
  const auto own = folder.loaded();
  CHECK(own.hash != shipped.hash);
  REQUIRE(own.filming.of(View::face_on).size() == 1);
  auto facts = good_facts();
  facts.rate_hz = 30;
  const auto front = judge_film(own.filming, View::face_on, facts, std::nullopt);
  const auto side = judge_film(own.filming, View::down_the_line, facts, std::nullopt);
  CHECK(front.verdict() == FilmVerdict::good);
  CHECK(side.verdict() == FilmVerdict::fair);
  CHECK(side.judged[0].criterion.advice == "Faster.");
}

}  // namespace
}  // namespace rangecheck::grade
