// SPDX-License-Identifier: MIT
// Real files with more than one person, where RANGECHECK_POSE_SAMPLES names a folder of them.
#include <cstdlib>

#include "intake/landmarks.hpp"
#include "pose/figure.hpp"

namespace rangecheck {
namespace {

Result<pose::Track> follow(const std::filesystem::path& path, intake::ImageSize image) {
  const auto texts = intake::read_landmark_files(path, "sample");
  if (!texts) return texts.error();
  auto film = intake::read_landmarks(*texts, image, intake::Handedness::right);
  if (!film) return film.error();
  intake::FilmedView view;
  view.film = *std::move(film);
  view.film.image = image;
  return pose::follow_golfer(view);
}

/// Middle of the hips, or of what there is of them.
double hips_x_px(const intake::Person& person) {
  double sum_px = 0, count = 0;
  for (const Side side : {Side::lead, Side::trail}) {
    if (const auto& hip = person.image[{side, Joint::hip}]) sum_px += hip->at.x_px, ++count;
  }
  return count > 0 ? sum_px / count : -1;
}

std::optional<std::filesystem::path> samples() {
  const char* folder = std::getenv("RANGECHECK_POSE_SAMPLES");
  if (folder) return std::filesystem::path(folder);
  MESSAGE("skipped: RANGECHECK_POSE_SAMPLES is not set");
  return std::nullopt;
}

TEST_CASE("a subject beside a bystander is followed in every frame that shows one of him") {
  const auto folder = samples();
  if (!folder) return;
  const auto track = follow(*folder / "openpose_body25" / "pose2sim_cam1_balancing", {1088, 1920});
  REQUIRE(track);
  REQUIRE(track->frames.size() == 40);
  std::size_t followed = 0;
  for (const auto& frame : track->frames) {
    if (!frame.person) continue;
    ++followed;
    // The bystander stands at the left edge, all of him left of 180 px; seen in drawings of it.
    CHECK(hips_x_px(*frame.person) > 300);
  }
  // In frame 37 the subject comes in two pieces.
  CHECK(followed == 39);
}

TEST_CASE("a dancer who turns round and round is no golfer whose left and right can be told") {
  const auto folder = samples();
  if (!folder) return;
  const auto track = follow(
      *folder / "alphapose_halpe26" / "motionbert_demo.alphapose-results.json", {1920, 1080});
  REQUIRE_FALSE(track);
  CHECK(track.error().fault == Fault::disagreement);
  CHECK(track.error().what == "left and right can't be told apart in most of the face-on film");
}

}  // namespace
}  // namespace rangecheck
