// SPDX-License-Identifier: MIT
#include "inbox/inspect.hpp"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "drawn_film.hpp"
#include "generator/writer.hpp"
#include "motion/view_told.hpp"
#include "night.hpp"
#include "said.hpp"

namespace rangecheck::inbox {
namespace {

using intake::View;
using report::Inspection;

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

samples::Film film_with(samples::Skeleton skeleton, samples::View view = samples::View::face_on,
                        samples::Hand hand = samples::Hand::right) {
  samples::Options options;
  options.detector.skeleton = skeleton;
  options.views = {view};
  return samples::film_of(samples::draw(7, options).films[0], 30, hand);
}

InspectJob job_of(const std::filesystem::path& file) {
  return {.file = file, .how = {}, .view = {}, .rate_hz = {}, .filming = grade::shipped_filming()};
}

Inspection inspected(const InspectJob& job) {
  auto inspection = inspect(job);
  REQUIRE_MESSAGE(bool(inspection), (inspection ? "" : to_string(inspection.error())));
  return *std::move(inspection);
}

grade::FilmVerdict verdict_of(const Inspection& film, std::string_view id) {
  REQUIRE(film.quality);
  for (const auto& one : film.quality->judged)
    if (one.criterion.id == id) return one.verdict;
  FAIL("no criterion ", id);
  return {};
}

TEST_CASE("inspect: a file in the plain form is described") {
  const Fixture fixture;
  fixture.write("face-on.json", samples::plain_form(film_with(samples::Skeleton::all)));
  const auto film = inspected(job_of(fixture.folder() / "face-on.json"));
  CHECK(film.file == "face-on.json");
  CHECK(film.frames_with.size() == 1);
  CHECK(film.frames_with.at(1) == film.frames);
  CHECK(*film.file_rate_hz == 30);
  CHECK(film.view == View::face_on);
  CHECK(film.view_from == "told by the feet");
  CHECK(film.still);
  CHECK(film.moments.empty());
  const auto text = report::inspection_text(film);
  CHECK(has(text, "lead heel"));
  CHECK(has(text, "stance-width"));
}

TEST_CASE("inspect: a film down the line is told as such, and a name that is given holds") {
  const Fixture fixture;
  fixture.write("film.json", samples::plain_form(
                                 film_with(samples::Skeleton::all, samples::View::down_the_line)));
  auto job = job_of(fixture.folder() / "film.json");
  const auto told = inspected(job);
  CHECK(told.view == View::down_the_line);
  CHECK(told.view_from == "told by the feet");
  CHECK(told.notes.empty());
  job.view = View::face_on;
  const auto given = inspected(job);
  CHECK(given.view == View::face_on);
  CHECK(given.view_from == "given");
  REQUIRE_FALSE(given.notes.empty());
  CHECK(given.notes.front() == "the feet look as in a down-the-line film");
}

TEST_CASE("inspect: the hand turns a left-hander's film over") {
  const Fixture fixture;
  fixture.write("film.json",
                samples::plain_form(film_with(samples::Skeleton::all, samples::View::down_the_line,
                                              samples::Hand::left)));
  auto job = job_of(fixture.folder() / "film.json");
  const auto as_right = inspected(job);
  REQUIRE_FALSE(as_right.notes.empty());
  CHECK(has(in_english(as_right.notes.front()), "the toes point to the left"));
  job.how.handedness = intake::Handedness::left;
  const auto as_left = inspected(job);
  CHECK(as_left.view == View::down_the_line);
  CHECK(as_left.notes.empty());
}

TEST_CASE("inspect: views are told by the feet, or not at all") {
  int right = 0, unsure = 0, films = 0;
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    for (const auto skeleton :
         {samples::Skeleton::coco_17, samples::Skeleton::points_25, samples::Skeleton::points_33}) {
      samples::Options options;
      options.setup = seed % 3 == 0   ? samples::Setup::driver
                      : seed % 3 == 1 ? samples::Setup::iron
                                      : samples::Setup::chip;
      options.family = seed % 2 == 0 ? samples::Family::neutral : samples::Family::preset;
      options.detector.skeleton = skeleton;
      const auto drawn = samples::draw(seed, options);
      for (const auto& truth : drawn.films) {
        pose::Track track;
        for (const auto& frame : truth.frames)
          track.frames.push_back({track.frames.size(), std::nullopt, test::person_of(frame)});
        const auto told = motion::view_told(track);
        ++films;
        right += told.view == test::view_of(truth.view);
        unsure += !told.view;
        CAPTURE(seed);
        CHECK((!told.view || told.view == test::view_of(truth.view)));
        CHECK_FALSE(told.toes_left);
      }
    }
  }
  MESSAGE(fmt::format("views: {} of {} told right, {} left open", right, films, unsure));
  CHECK(right >= 0.9 * films);
}

TEST_CASE("inspect: without heels there is no stance width") {
  const Fixture fixture;
  fixture.write("film.json", samples::coco_results(film_with(samples::Skeleton::coco_17)));
  const auto film = inspected(job_of(fixture.folder() / "film.json"));
  const auto text = report::inspection_text(film);
  const auto cannot = text.find("They can't show directly:");
  REQUIRE(cannot != std::string::npos);
  CHECK(text.find("stance-width") > cannot);
}

TEST_CASE("inspect: a folder of one file a frame is one film") {
  const Fixture fixture;
  const auto film = film_with(samples::Skeleton::points_25);
  for (const auto& [name, text] : samples::one_file_a_frame(film, "swing"))
    fixture.write("frames/" + name, text);
  const auto inspection = inspected(job_of(fixture.folder() / "frames/"));
  CHECK(inspection.frames == film.frames.size());
  CHECK(inspection.file == "frames");
}

TEST_CASE("inspect: shares of a picture of unknown size are described with a stand-in") {
  const Fixture fixture;
  fixture.write("film.json", samples::points_33_results(film_with(samples::Skeleton::points_33)));
  auto job = job_of(fixture.folder() / "film.json");
  const auto film = inspected(job);
  CHECK(film.image_is_stand_in);
  // Nothing can be told of the edges or the camera of a picture whose shape is not known.
  CHECK(verdict_of(film, "feet-in-picture") == grade::FilmVerdict::not_known);
  CHECK(verdict_of(film, "camera-height") == grade::FilmVerdict::not_known);
  job.how.image = intake::ImageSize{1080, 1920};
  const auto sized = inspected(job);
  CHECK_FALSE(sized.image_is_stand_in);
  CHECK(verdict_of(sized, "feet-in-picture") == grade::FilmVerdict::good);
}

TEST_CASE("inspect: a whole swing's quality; the rate may be given") {
  auto job = job_of(std::filesystem::path(RANGECHECK_SOURCE_DIR) /
                    "samples/inbox/s-0420-driver/face-on.json.gz");
  const auto film = inspected(job);
  REQUIRE(film.quality);
  CHECK(film.quality->facts.shows_swing);
  CHECK(film.moments.size() == position_count);
  CHECK(verdict_of(film, "frame-rate") == grade::FilmVerdict::poor);
  REQUIRE(film.quality->camera);
  // One film says little of its camera, and less than nothing is not claimed.
  CHECK(film.quality->camera->height_m.u > 0.08);
  job.rate_hz = 240;
  CHECK(std::abs(*inspected(job).quality->facts.rate_hz - 240) < 1);
}

TEST_CASE("inspect: a golfer who never stands still still gets a film judged") {
  auto film = film_with(samples::Skeleton::all);
  for (std::size_t f = 0; f < film.frames.size(); ++f)
    for (auto& point : film.frames[f][0].image.values())
      if (point) point->at_px.x() += 30.0 * static_cast<double>(f);
  const Fixture fixture;
  fixture.write("film.json", samples::plain_form(film));
  const auto inspection = inspected(job_of(fixture.folder() / "film.json"));
  CHECK_FALSE(inspection.still);
  CHECK(has(inspection.still_fault, "never still"));
  CHECK(verdict_of(inspection, "still-address") == grade::FilmVerdict::poor);
}

TEST_CASE("inspect: what is no film is an error that names the file") {
  const Fixture fixture;
  fixture.write("notes.json", R"({"hello": "there"})");
  const auto none = inspect(job_of(fixture.folder() / "notes.json"));
  REQUIRE_FALSE(none);
  CHECK(none.error().where.file == "notes.json");
  std::filesystem::create_directory(fixture.folder() / "empty");
  CHECK_FALSE(inspect(job_of(fixture.folder() / "empty")));
  CHECK_FALSE(inspect(job_of(fixture.folder() / "nowhere.json")));
}

TEST_CASE("inspect: hostile files end in an error or in a page, never otherwise") {
  const Fixture fixture;
  const std::string film = samples::plain_form(film_with(samples::Skeleton::all));
  const std::string bodies[] = {
      "",
      "\xff\xfe\x00",
      std::string(100000, '['),
      R"({"frames": []})",
      R"([])",
      R"([[]])",
      R"({"frames": [{"people": []}]})",
      film.substr(0, film.size() / 2),
      R"([{"image_id": 1, "category_id": 1, "keypoints": [1e308,1e308,1,-1e308,1e308,1,1,1,1,1,1,1,)"
      R"(1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1], "score": 1}])",
  };
  for (const auto& body : bodies) {
    fixture.write("film.json", body);
    const auto inspection = inspect(job_of(fixture.folder() / "film.json"));
    CAPTURE(body.substr(0, 60));
    if (inspection)
      CHECK(report::inspection_text(*inspection).starts_with("film.json\n"));
    else
      CHECK(inspection.error().where.file == "film.json");
  }
}

}  // namespace
}  // namespace rangecheck::inbox
