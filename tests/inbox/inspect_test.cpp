// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include "generator/writer.hpp"
#include "night.hpp"

namespace rangecheck::inbox {
namespace {

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

samples::Film film_with(samples::Skeleton skeleton) {
  samples::Options options;
  options.detector.skeleton = skeleton;
  options.views = {samples::View::face_on};
  return samples::film_of(samples::draw(7, options).films[0], 30, samples::Hand::right);
}

TEST_CASE("a file in the plain form is described") {
  const Fixture fixture;
  fixture.write("face-on.json", samples::plain_form(film_with(samples::Skeleton::all)));
  const auto text = inspect(fixture.folder() / "face-on.json");
  REQUIRE(text);
  CHECK(has(*text, "face-on.json\n"));
  CHECK(has(*text, "people      1 in "));
  CHECK(has(*text, "frame rate  30 Hz"));
  CHECK(has(*text, "still       frames "));
  CHECK(has(*text, "lead heel"));
  CHECK(has(*text, "stance-width"));
}

TEST_CASE("without heels there is no stance width") {
  const Fixture fixture;
  fixture.write("film.json", samples::coco_results(film_with(samples::Skeleton::coco_17)));
  const auto text = inspect(fixture.folder() / "film.json");
  REQUIRE(text);
  const auto cannot = text->find("They can't show directly:");
  REQUIRE(cannot != std::string::npos);
  CHECK(text->find("stance-width") > cannot);
}

TEST_CASE("a folder of one file a frame is one film") {
  const Fixture fixture;
  const auto film = film_with(samples::Skeleton::points_25);
  for (const auto& [name, text] : samples::one_file_a_frame(film, "swing"))
    fixture.write("frames/" + name, text);
  const auto text = inspect(fixture.folder() / "frames/");
  REQUIRE(text);
  CHECK(has(*text, "frames      " + std::to_string(film.frames.size()) + "\n"));
  CHECK(text->starts_with("frames\n"));
}

TEST_CASE("shares of a picture of unknown size are described with a stand-in") {
  const Fixture fixture;
  fixture.write("film.json", samples::points_33_results(film_with(samples::Skeleton::points_33)));
  const auto text = inspect(fixture.folder() / "film.json");
  REQUIRE(text);
  CHECK(has(*text, "a stand-in"));
  const auto sized = inspect(fixture.folder() / "film.json", intake::ImageSize{1080, 1920});
  REQUIRE(sized);
  CHECK(has(*sized, "picture     1080 x 1920 px\n"));
}

TEST_CASE("what is no film is an error that names the file") {
  const Fixture fixture;
  fixture.write("notes.json", R"({"hello": "there"})");
  const auto text = inspect(fixture.folder() / "notes.json");
  REQUIRE_FALSE(text);
  CHECK(text.error().where.file == "notes.json");
  std::filesystem::create_directory(fixture.folder() / "empty");
  CHECK_FALSE(inspect(fixture.folder() / "empty"));
  CHECK_FALSE(inspect(fixture.folder() / "nowhere.json"));
}

}  // namespace
}  // namespace rangecheck::inbox
