// SPDX-License-Identifier: MIT
#include "report/inspection.hpp"

#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "films_example.hpp"
#include "said.hpp"

namespace rangecheck::report {
namespace {

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

Inspection example() {
  Inspection film;
  film.file = "face-on.json";
  film.form = "plain form";
  film.image = intake::ImageSize{1080, 1920};
  film.frames = 400;
  film.frames_with = {{0, 3}, {1, 397}};
  film.view_from = "told by the feet";
  film.still = Inspection::Still{4, 60};
  film.notes = {as_written("3 frames show nobody")};
  film.moments = {
      {Position::address,
       motion::PositionTime::Found{Duration::seconds(1.25), Duration::seconds(0.02)}, 300, ""},
      {Position::top, std::nullopt, 0, "the film ends"}};
  film.landmarks = {{lead(Joint::heel), 0.99, 0.8, 0.5}, {trail(Joint::heel), 0.4, 0.3, {}}};
  film.can_show = {{"feet", {"stance-width"}}};
  film.cannot_show = {{"no ear", {"chin-down"}}};
  auto facts = well_filmed();
  facts.rate_hz = 60;
  facts.feet.reset();
  facts.head.reset();
  film.quality = example_film(intake::View::face_on, facts);
  return film;
}

TEST_CASE("inspection: what is said of a film") {
  const auto text = inspection_text(example());
  CHECK(
      text.starts_with("face-on.json\n"
                       "form        plain form\n"
                       "picture     1080 x 1920 px\n"
                       "frames      400\n"
                       "people      nobody in 3 frames, 1 in 397 frames\n"
                       "frame rate  not given\n"
                       "confidence  given\n"
                       "view        face-on (told by the feet)\n"
                       "still       frames 4 to 60 of 400\n"
                       "note        3 frames show nobody\n"
                       "\n"
                       "p1  Address                     1.250 s ± 0.020 s, frame 300, from the "
                       "hands\n"
                       "p4  Top                         not found: the film ends\n"));
  CHECK(has(text,
            "\nHow it was filmed:\n"
            "  good       Hands in the picture through the swing: 15 ± 4 % (good: at least 2\n"
            "             %, fair: at least -1 %)\n"));
  CHECK(has(text,
            "  fair       Pictures a second: 60 a second (good: at least 110, fair: at least\n"
            "             50)\n"
            "               Film the swing in slow motion: 120 frames a second or more.\n"));
  CHECK(has(text,
            "  not known  picture or body is not known well enough: feet in the picture and\n"
            "             head in the picture\n"));
  CHECK(has(text, "camera      1.00 ± 0.10 m high, 3.0 ± 0.2 m away, 1 ± 2° to the left"));
  CHECK(has(text,
            "how sure              at address    in the swing\n"
            "head                        0.90            0.90\n"));
  CHECK(has(text,
            "lead heel               99 %        0.80          0.50\n"
            "trail heel              40 %        0.30             -\n"));
  CHECK(has(text, "  feet: stance-width\nThey can't show directly:\n  no ear: chin-down\n"));
}

TEST_CASE("inspection: a film without a golfer, or without a still address, says why") {
  Inspection film = example();
  film.golfer_fault = "nobody is in any frame";
  const auto nobody = inspection_text(film);
  CHECK(has(nobody, "golfer      not found: nobody is in any frame\n"));
  CHECK_FALSE(has(nobody, "How it was filmed"));
  film = example();
  film.still.reset();
  film.still_fault = "the golfer is never still";
  CHECK(has(inspection_text(film), "still       no: the golfer is never still\n"));
}

TEST_CASE("inspection: of several people, how sure it is who the golfer is") {
  Inspection film = example();
  CHECK(nlohmann::json::parse(inspection_json(film))["golfer_certainty"].is_null());
  // Never more than is known: 99.9 % is not 100.
  film.golfer_certainty = 0.999;
  CHECK(has(inspection_text(film), "golfer      told from other people, 99 % sure\n"));
  CHECK(nlohmann::json::parse(inspection_json(film))["golfer_certainty"] == 0.999);
}

TEST_CASE("inspection: words from the file can't move the cursor") {
  Inspection film = example();
  film.form = "plain\x1b[2J";
  CHECK_FALSE(has(inspection_text(film), "\x1b"));
}

TEST_CASE("inspection: as a document") {
  const auto document = nlohmann::json::parse(inspection_json(example()));
  CHECK(document["format"] == "rangecheck-inspection");
  CHECK(document["version"] == 1);
  CHECK(document["image"]["width_px"] == 1080);
  CHECK(document["people"][1]["frames"] == 397);
  CHECK(document["still"]["last"] == 60);
  CHECK(document["positions"][0]["frame"] == 300);
  CHECK(document["positions"][1]["reason"] == "the film ends");
  CHECK(document["quality"]["verdict"] == "fair");
  CHECK(document["landmarks"][1]["jitter_u_px"].is_null());
  CHECK(document["cannot_show"][0]["measures"][0] == "chin-down");
}

}  // namespace
}  // namespace rangecheck::report
