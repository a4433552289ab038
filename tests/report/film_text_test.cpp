// SPDX-License-Identifier: MIT
// What is written of a film reads back as the very same film.
#include "report/film_text.hpp"

#include <doctest/doctest.h>

#include <bit>
#include <cstdint>
#include <filesystem>

#include "generator/dialects/dialects.hpp"
#include "intake/landmarks.hpp"
#include "intake/submission.hpp"
#include "said.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;
using namespace rangecheck::report;

namespace {

namespace fs = std::filesystem;

bool same(double a, double b) {
  return std::bit_cast<std::uint64_t>(a) == std::bit_cast<std::uint64_t>(b);
}

bool same(const Sighting& a, const Sighting& b) {
  return same(a.at.x_px, b.at.x_px) && same(a.at.y_px, b.at.y_px) &&
         same(a.confidence, b.confidence);
}

bool same(const SpatialSighting& a, const SpatialSighting& b) {
  return same(a.x_m, b.x_m) && same(a.y_m, b.y_m) && same(a.z_m, b.z_m) &&
         same(a.confidence, b.confidence);
}

bool same(Duration a, Duration b) { return same(a.in_seconds(), b.in_seconds()); }

bool same(const ImageSize& a, const ImageSize& b) {
  return same(a.width_px, b.width_px) && same(a.height_px, b.height_px);
}

template <class T>
bool same(const std::optional<T>& a, const std::optional<T>& b) {
  return a.has_value() == b.has_value() && (!a || same(*a, *b));
}

void check_same(const Person& a, const Person& b) {
  CHECK(a.track == b.track);
  for (std::size_t i = 0; i < landmark_count; ++i) {
    CAPTURE(key_of(landmark_at(i)));
    CHECK(same(a.image.values()[i], b.image.values()[i]));
    CHECK(same(a.space.values()[i], b.space.values()[i]));
  }
}

void check_same(const Film& a, const Film& b) {
  CHECK(a.dialect == b.dialect);
  CHECK(a.estimator == b.estimator);
  CHECK(a.confidence_given == b.confidence_given);
  CHECK(same(a.image, b.image));
  CHECK(same(a.frame_rate_hz, b.frame_rate_hz));
  CHECK(a.space == b.space);
  CHECK(a.picture_is_drawn == b.picture_is_drawn);
  CHECK(in_english(a.notes) == in_english(b.notes));
  REQUIRE(a.frames.size() == b.frames.size());
  for (std::size_t i = 0; i < a.frames.size(); ++i) {
    CAPTURE(i);
    CHECK(a.frames[i].number == b.frames[i].number);
    CHECK(same(a.frames[i].time, b.frames[i].time));
    REQUIRE(a.frames[i].people.size() == b.frames[i].people.size());
    for (std::size_t p = 0; p < a.frames[i].people.size(); ++p) {
      check_same(a.frames[i].people[p], b.frames[i].people[p]);
    }
  }
}

/// Written and read once, then once more: the same film, and the same bytes.
template <class Write>
void check_there_and_back(const Film& film, Write write, const std::string& name) {
  CAPTURE(name);
  const std::string text = write(film);
  const auto again = read_landmarks({{name, text}}, std::nullopt, Handedness::right);
  if (!again) FAIL_CHECK(to_string(again.error()));
  if (!again) return;
  check_same(film, *again);
  CHECK(write(*again) == text);
}

void check_there_and_back(const Film& film) {
  check_there_and_back(film, film_jsonl, "film.jsonl");
  check_there_and_back(film, film_csv, "film.csv");
}

/// A film with everything in it that a text could lose.
Film awkward_film() {
  Film film;
  film.dialect = "points, \"in quotes\", and more";
  film.estimator = Estimator::points_33;
  film.image = ImageSize{1080.5, 1920};
  film.frame_rate_hz = 30000.0 / 1001;
  film.space = SpaceSource::depth_camera;
  film.picture_is_drawn = true;
  for (const auto* note : {"=SUM(A1:A9)", "'quoted", "two\nlines, and a comma", "", " blanks "})
    film.notes.push_back(as_written(note));
  film.frames.resize(4);
  for (std::size_t i = 0; i < film.frames.size(); ++i) film.frames[i].number = 3 + 2 * i;
  film.frames[1].time = Duration::seconds(0.1 + 0.2);
  Person one;
  one.track = -7;
  one.image[centre(Joint::ball)] = Sighting{{-0.0, 1e-310}, 0};
  one.image[lead(Joint::knee)] = Sighting{{1.0 / 3, -53}, 1};
  one.image[trail(Joint::little_4)] = Sighting{{12345.678901234567, 2}, 0.1};
  one.space[lead(Joint::knee)] = SpatialSighting{-0.0, 0, 1e-17, 0.25};
  one.space[centre(Joint::nose)] = SpatialSighting{0, 0, 0, 1};
  Person other;
  other.image[centre(Joint::nose)] = Sighting{{0, 0}, 1};
  film.frames[1].people = {one, other};
  film.frames[2].people = {other};
  return film;
}

}  // namespace

TEST_CASE("an awkward film comes back as it was, from lines and from a table") {
  check_there_and_back(awkward_film());
}

TEST_CASE("a film without confidences has none written, and none when it is read again") {
  Film film = awkward_film();
  film.confidence_given = false;
  for (auto& frame : film.frames) {
    for (auto& person : frame.people) {
      for (auto& point : person.image.values()) {
        if (point) point->confidence = 1;
      }
      for (auto& point : person.space.values()) {
        if (point) point->confidence = 1;
      }
    }
  }
  check_there_and_back(film);
  CHECK(film_jsonl(film).find("\"nose\":[0,0]") != std::string::npos);
}

TEST_CASE("films of every dialect come back as they were read") {
  const auto scene = samples::made_up_scene();
  for (const auto& dialect : samples::all_dialects()) {
    CAPTURE(dialect.form);
    std::vector<LandmarkText> files;
    for (const auto& file : dialect.write(scene)) files.push_back({file.name, file.text});
    ReadOptions options;
    if (!dialect.holds.image_size && dialect.holds.picture)
      options.image = ImageSize{double(scene.width_px), double(scene.height_px)};
    options.layout = dialect.layout;
    const auto film = read_landmarks(files, options);
    if (!film) FAIL_CHECK(to_string(film.error()));
    if (film) check_there_and_back(*film);
  }
}

TEST_CASE("rendered films come back as they were read") {
  const auto locations = find_submissions(fs::path(RANGECHECK_SOURCE_DIR) / "tests/films");
  REQUIRE(locations);
  std::size_t films = 0;
  for (const auto& location : *locations) {
    CAPTURE(location.id);
    const auto submission = read_submission(location, {});
    if (!submission) FAIL_CHECK(to_string(submission.error()));
    if (!submission) continue;
    for (const auto& view : submission->views) {
      check_there_and_back(view.film);
      ++films;
    }
  }
  CHECK(films == 19);
}

TEST_CASE("the first lines of both forms") {
  Film film;
  film.dialect = "by hand";
  film.image = ImageSize{1080, 1920};
  film.frames.resize(2);
  film.frames[1].number = 1;
  Person person;
  person.image[lead(Joint::knee)] = Sighting{{612.5, 1210}, 0.97};
  film.frames[0].people = {person};
  CHECK(film_jsonl(film) ==
        "{\"format\":\"rangecheck-landmarks\",\"version\":1,\"read-from\":\"by hand\","
        "\"image\":{\"width\":1080,\"height\":1920}}\n"
        "{\"frame\":0,\"people\":[{\"points\":{\"left_knee\":[612.5,1210,0.97]}}]}\n"
        "{\"frame\":1,\"people\":[]}\n");
  CHECK(film_csv(film) ==
        "fact,value,frame,time,person,track,point,x,y,confidence,space_x,space_y,space_z,"
        "space_confidence\r\n"
        "format,rangecheck-landmarks,,,,,,,,,,,,\r\n"
        "version,1,,,,,,,,,,,,\r\n"
        "read-from,by hand,,,,,,,,,,,,\r\n"
        "image-width,1080,,,,,,,,,,,,\r\n"
        "image-height,1920,,,,,,,,,,,,\r\n"
        ",,0,,1,,left_knee,612.5,1210,0.97,,,,\r\n"
        ",,1,,,,,,,,,,,\r\n");
}
