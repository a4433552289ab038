// SPDX-License-Identifier: MIT
// Rendered golfers read by a real estimator: on which side the points of each pair are,
// against where they truly were.
// The folder is tests/films, and RANGECHECK_REAL_FILMS where that is set.
#include <doctest/doctest.h>

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "intake/submission.hpp"
#include "pose/golfer.hpp"
#include "truth.hpp"

namespace rangecheck {
namespace {

using Json = nlohmann::json;

/// Rows of `axes`: image right, image down, forward.
struct FilmCamera {
  std::vector<std::vector<double>> axes;
  std::vector<double> position;
  double focal_px = 0;
  intake::ImageSize image;

  intake::ImagePoint project(const std::vector<double>& point) const {
    double seen[3] = {};
    for (std::size_t row = 0; row < 3; ++row)
      for (std::size_t k = 0; k < 3; ++k) seen[row] += axes[row][k] * (point[k] - position[k]);
    return {image.width_px / 2 + focal_px * seen[0] / seen[2],
            image.height_px / 2 + focal_px * seen[1] / seen[2]};
  }
};

using Places = LandmarkMap<std::vector<double>>;

Places places_of(const Json& joints) {
  Places out;
  for (const auto& [name, at] : joints.items())
    if (const auto id = test::truth_landmark(name)) out[*id] = at.get<std::vector<double>>();
  return out;
}

/// Whether a point of a pair that lies apart by a tenth of the golfer's height is nearer to where
/// the other one is. Nothing when they lie closer or the point is not there.
std::optional<bool> is_exchanged(const intake::Person& person, LandmarkId id, const Places& places,
                                 const FilmCamera& camera, double height_px) {
  if (!person.image[id] || !places[id] || !places[mirrored(id)]) return std::nullopt;
  const auto own = camera.project(*places[id]), other = camera.project(*places[mirrored(id)]);
  if (std::hypot(own.x_px - other.x_px, own.y_px - other.y_px) < 0.1 * height_px)
    return std::nullopt;
  const auto& at = person.image[id]->at;
  return std::hypot(at.x_px - other.x_px, at.y_px - other.y_px) <
         std::hypot(at.x_px - own.x_px, at.y_px - own.y_px);
}

struct Counts {
  std::size_t frames = 0;
  std::size_t in_file = 0, in_track = 0;  ///< points nearer to where the other one is
  std::size_t made_wrong = 0;             ///< of those in the track: right in the file
};

void count(const intake::Person& file, const intake::Person& track, const Places& places,
           const FilmCamera& camera, double height_px, Counts& out) {
  ++out.frames;
  for (std::size_t i = central_joint_count; i < landmark_count; ++i) {
    const LandmarkId id = landmark_at(i);
    const auto before = is_exchanged(file, id, places, camera, height_px);
    const auto after = is_exchanged(track, id, places, camera, height_px);
    out.in_file += before.value_or(false);
    out.in_track += after.value_or(false);
    out.made_wrong += after.value_or(false) && !before.value_or(true);
  }
}

FilmCamera camera_of(const Json& truth, const intake::FilmedView& view) {
  const Json& given = truth["cameras"][std::string(intake::name_of(view.view))];
  return {given["R"], given["pos"], given["f"], *view.film.image};
}

void check_film(const intake::FilmedView& view, const Json& truth) {
  const auto track = pose::follow_golfer(view);
  if (!track) return;  // one film shows someone upside down, as the estimator has it
  const FilmCamera camera = camera_of(truth, view);
  Counts counts;
  for (std::size_t f = 0; f < track->frames.size(); ++f) {
    const auto& frame = track->frames[f];
    if (!frame.person) continue;
    const Json& joints = truth["joints_m"];
    const Places places = places_of(joints.is_array() ? joints[frame.number] : joints);
    const double top_px = camera.project(*places[lead(Joint::ear)]).y_px;
    const double bottom_px = camera.project(*places[lead(Joint::ankle)]).y_px;
    count(view.film.frames[f].people[0], *frame.person, places, camera,
          std::abs(bottom_px - top_px), counts);
  }
  CHECK(counts.frames > 0);
  CHECK(counts.in_track <= counts.in_file);
  // The far arm is guessed, and an arm that is put right as a whole may take a wild point with it.
  CHECK(counts.made_wrong <= 2);
}

void check_folder(const std::filesystem::path& folder) {
  const auto locations = intake::find_submissions(folder);
  REQUIRE(locations);
  CHECK(locations->size() >= 1);
  for (const auto& location : *locations) {
    std::ifstream file(folder / location.id / "truth.json");
    const auto submission = intake::read_submission(location, {});
    if (!file || !submission) continue;
    const Json truth = Json::parse(file);
    for (const auto& view : submission->views) {
      CAPTURE(location.id);
      CAPTURE(intake::name_of(view.view));
      check_film(view, truth);
    }
  }
}

TEST_CASE("in films with known joints pairs are put right and never wrong") {
  check_folder(std::filesystem::path(RANGECHECK_SOURCE_DIR) / "tests/films");
  if (const char* folder = std::getenv("RANGECHECK_REAL_FILMS")) check_folder(folder);
}

}  // namespace
}  // namespace rangecheck
