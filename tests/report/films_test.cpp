// SPDX-License-Identifier: MIT
// What the student's page says of the films.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "example.hpp"
#include "report/present.hpp"
#include "said.hpp"

namespace rangecheck::report {
namespace {

using intake::View;

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

/// What stands under "Your films", with the heading; the notes follow it.
std::string films_block(const Graded& graded) {
  const auto page = student_text(graded);
  const auto start = page.find("\nYour films\n");
  if (start == std::string::npos) return "";
  return page.substr(start, page.find("\nAbout the films\n") - start);
}

Graded with_films(std::vector<grade::FilmQuality> films) {
  Graded graded = example_graded();
  graded.films = std::move(films);
  return graded;
}

TEST_CASE("films: nothing wrong is one line, nothing known is none") {
  CHECK(films_block(with_films({example_film(View::face_on, well_filmed())})) ==
        "\nYour films\n----------\nWell filmed: nothing to change.\n");
  CHECK(films_block(with_films({})).empty());
}

TEST_CASE("films: the worst three, each with what to do, films that share one together") {
  auto front = well_filmed(), side = well_filmed();
  front.rate_hz = side.rate_hz = 30;
  front.feet = motion::Margin{{-0.08, 0.02}, {-0.10, 0.02}, 0.4};
  side.still_s = 0.3;
  side.height_share = motion::Fact{0.35, 0.01};
  CHECK(films_block(with_films(
            {example_film(View::face_on, front), example_film(View::down_the_line, side, -14)})) ==
        "\n"
        "Your films\n"
        "----------\n"
        "Before you film again:\n"
        "  * The face-on film: the feet are cut off (in 40 % of the pictures). Leave a\n"
        "    hand's breadth of ground below the feet and the ball.\n"
        "  * Both films: the film has too few pictures for a downswing (30 a second).\n"
        "    Film the swing in slow motion: 120 frames a second or more.\n"
        "  * The down-the-line film: the camera stands off square (-14 ± 2°). Put the\n"
        "    camera behind the hands, looking along the target line.\n");
}

TEST_CASE("films: one matter in both films is told once, as of the worse") {
  auto front = well_filmed(), side = well_filmed();
  front.height_share = motion::Fact{0.35, 0.01};
  side.height_share = motion::Fact{0.15, 0.01};
  CHECK(films_block(with_films(
            {example_film(View::face_on, front), example_film(View::down_the_line, side)})) ==
        "\n"
        "Your films\n"
        "----------\n"
        "Before you film again:\n"
        "  * Both films: the golfer is very small in the picture (15 ± 2 %). Go nearer,\n"
        "    or turn the phone upright, until the golfer fills at least half of the\n"
        "    height.\n");
}

TEST_CASE("films: what will do is asked for gently") {
  auto facts = well_filmed();
  facts.still_s = 0.3;
  CHECK(films_block(with_films({example_film(View::face_on, facts)})) ==
        "\n"
        "Your films\n"
        "----------\n"
        "They will do. Next time, if you can:\n"
        "  * The face-on film: the address is held only for a moment (0.30 s). Start the\n"
        "    film a second before the swing and hold the address for as long as that.\n");
}

TEST_CASE("films: the same advice is not given twice") {
  auto facts = well_filmed();
  facts.rate_hz = 30;
  Graded graded = with_films({example_film(View::face_on, facts, 14)});
  graded.grade.results[2].remedy = {"remedy.120-frames"};
  graded.findings = {
      {.refuses = false,
       .source = as_written("face-on film"),
       .text = as_written("the face-on camera seems to stand about 14 degrees off square"),
       .remedy = as_written("set the camera straight"),
       .about_camera = true}};
  const auto page = student_text(graded);
  CHECK(has(page,
            "too few pictures for a downswing (30 a\n    second). How to film it is said above."));
  CHECK_FALSE(has(page, "Film the swing in slow motion"));
  CHECK(has(page, "the camera stands off square (14 ± 2°)"));
  CHECK(has(page, "seems to stand about 14 degrees off square\n"));
  CHECK_FALSE(has(page, "set the camera straight"));
  // With nothing said of the camera among the films the finding keeps its remedy.
  graded.films = {example_film(View::face_on, well_filmed())};
  CHECK(has(student_text(graded), "set the\n    camera straight"));
}

TEST_CASE("films: a coach without words gets the number") {
  auto film = example_film(View::face_on, well_filmed());
  film.judged.resize(1);
  film.judged[0].criterion.when_poor.clear();
  film.judged[0].verdict = grade::FilmVerdict::poor;
  CHECK(has(films_block(with_films({film})), "Feet in the picture: 15 ± 4 %. Leave a"));
}

TEST_CASE("films: values are shown with the digits that mean something") {
  const auto film = example_film(View::face_on, well_filmed(), 3);
  const auto shown = [&](std::string_view id) {
    for (const auto& one : film.judged)
      if (one.criterion.id == id) return value_text(english(), one);
    return std::string("?");
  };
  CHECK(shown("frame-rate") == "240 a second");
  CHECK(shown("camera-height") == "1.00 ± 0.10 m");
  CHECK(shown("camera-square") == "3 ± 2°");
  CHECK(shown("golfer-size") == "60 ± 2 %");
  CHECK(shown("jitter") == "0.2 %");
  CHECK(shown("confidence") == "0.80");
  CHECK(shown("still-address") == "1.00 s");
}

TEST_CASE("films: the document has it all") {
  const auto document = nlohmann::json::parse(result_json(with_films(
      {example_film(View::face_on, well_filmed()), example_film(View::down_the_line, {}, 14)})));
  REQUIRE(document["films"].size() == 2);
  const auto& front = document["films"][0];
  CHECK(front["view"] == "face-on");
  CHECK(front["verdict"] == "good");
  CHECK(front["pictures"] == 400);
  REQUIRE(front["criteria"].size() == 14);
  const auto& rate = front["criteria"][5];
  CHECK(rate["id"] == "frame-rate");
  CHECK(rate["unit"] == "1/s");
  CHECK(rate["value"] == 240);
  CHECK(rate["good"]["lower"] == 110);
  CHECK(rate["fair"]["upper"].is_null());
  CHECK(front["margins"]["feet"]["least"]["value"] == 0.15);
  CHECK(front["confidence"][1]["part"] == "feet");
  const auto& side = document["films"][1];
  CHECK(side["verdict"] == "poor");
  CHECK(std::abs(double(side["camera"]["off_square_deg"]["value"]) - 14) < 1e-9);
  CHECK(std::abs(double(side["camera"]["off_square_deg"]["standard_uncertainty"]) - 1) < 1e-9);
  CHECK(side["margins"]["feet"].is_null());
}

}  // namespace
}  // namespace rangecheck::report
