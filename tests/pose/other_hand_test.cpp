// SPDX-License-Identifier: MIT
// Mirrored pictures and wrong handedness: every picture turned over, names and all.
#include <doctest/doctest.h>

#include "drawn_film.hpp"
#include "pose/golfer.hpp"

namespace rangecheck {
namespace {

/// As a camera gives it that mirrors its pictures, and as an estimator then reads it.
intake::FilmedView mirrored_film(intake::FilmedView view) {
  for (auto& frame : view.film.frames) {
    for (auto& person : frame.people) {
      const intake::Person as_was = person;
      for (std::size_t i = 0; i < landmark_count; ++i) {
        const LandmarkId id = landmark_at(i);
        person.image[id] = as_was.image[mirrored(id)];
        if (person.image[id])
          person.image[id]->at.x_px = view.film.image->width_px - person.image[id]->at.x_px;
      }
    }
  }
  return view;
}

TEST_CASE("a mirrored swing is refused with what to do about it, the film as it was is not") {
  for (const auto& [drawn_view, words, remedy] :
       {std::tuple{samples::View::face_on, "the face-on film shows a swing of the other hand",
                   "check handedness in the roster, or switch off mirroring in the camera"},
        std::tuple{samples::View::down_the_line,
                   "the down-the-line film shows a swing of the other hand",
                   "check handedness in the roster, switch off mirroring in the camera, or film "
                   "from behind the trail side, looking at the target"}}) {
    for (std::uint64_t seed = 1; seed <= 12; ++seed) {
      samples::SwingOptions options;
      options.base.views = {drawn_view};
      options.base.detector.skeleton = samples::Skeleton::points_33;
      const auto film = test::film_of(samples::draw_swing(seed, options).films[0]);
      CAPTURE(seed);
      CHECK(pose::follow_golfer(film));
      const auto track = pose::follow_golfer(mirrored_film(film));
      REQUIRE_FALSE(track);
      CHECK(track.error().fault == Fault::disagreement);
      CHECK(track.error().what == words);
      CHECK(track.error().remedy == remedy);
    }
  }
}

}  // namespace
}  // namespace rangecheck
