// SPDX-License-Identifier: MIT
#include <cstdlib>

#include "fixture.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;

// A folder of submissions with films of a real estimator, which are not kept beside the sources.
TEST_CASE("films of a real estimator, where there are any, read right") {
  const char* folder = std::getenv("RANGECHECK_REAL_FILMS");
  if (folder == nullptr) {
    MESSAGE("skipped: RANGECHECK_REAL_FILMS is not set");
    return;
  }
  const auto locations = find_submissions(folder);
  REQUIRE(locations);
  CHECK_FALSE(locations->empty());
  for (const auto& location : *locations) {
    CAPTURE(location.id);
    const auto submission = read_submission(location, {});
    if (!submission) FAIL_CHECK(to_string(submission.error()));
    if (!submission) continue;
    for (const auto& view : submission->views) {
      CHECK(view.film.estimator == Estimator::points_33);
      CHECK(view.film.image->width_px > 0);
      std::size_t seen = 0;
      for (const auto& frame : view.film.frames) {
        if (frame.people.empty()) continue;
        ++seen;
        const Person& person = frame.people.front();
        CHECK(person.space.has(lead(Joint::knee)));
        if (view.view != View::face_on) continue;  // from the side the estimator may lose its way
        // Upright and inside the picture: y down, in pixels.
        REQUIRE(person.image.has(centre(Joint::nose)));
        REQUIRE(person.image.has(lead(Joint::ankle)));
        const double nose_px = person.image[centre(Joint::nose)]->at.y_px;
        const double ankle_px = person.image[lead(Joint::ankle)]->at.y_px;
        CHECK(nose_px > 0);
        CHECK(ankle_px - nose_px > 0.2 * view.film.image->height_px);
        CHECK(ankle_px < 1.1 * view.film.image->height_px);
      }
      CHECK(2 * seen > view.film.frames.size());
    }
  }
}
