// SPDX-License-Identifier: MIT
// Films of a real estimator with known times of takeaway and half-way back.
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "close.hpp"
#include "intake/submission.hpp"
#include "motion/film_motion.hpp"

namespace rangecheck {
namespace {

/// The window of a film, or the text of the error that stands for it.
struct Outcome {
  std::optional<motion::Still> still;
  std::string error;
};

Outcome outcome_of(const intake::FilmedView& view) {
  const auto track = pose::follow_golfer(view);
  if (!track) return {std::nullopt, to_string(track.error())};
  auto motion = motion::film_motion(*track, view.frame_rate_hz, "full");
  if (!motion) return {std::nullopt, to_string(motion.error())};
  return {std::move(motion->address), ""};
}

intake::FilmedView from_frame(intake::FilmedView view, double first) {
  auto& frames = view.film.frames;
  frames.erase(frames.begin(), frames.begin() + static_cast<std::ptrdiff_t>(first));
  return view;
}

void check_swing(const intake::FilmedView& view, const nlohmann::json& event_frame) {
  const double takeaway = event_frame["p1"], half_way_back = event_frame["p2"];
  const Outcome whole = outcome_of(view);
  if (whole.still) {
    CHECK(static_cast<double>(whole.still->first_frame) < takeaway);
    CHECK(static_cast<double>(whole.still->last_frame) < half_way_back);
  } else {
    // The one known reason in these films.
    CHECK(whole.error.find("upside down") != std::string::npos);
  }
  // Without its address the same film has nothing to grade.
  const Outcome cut = outcome_of(from_frame(view, half_way_back));
  CAPTURE(cut.error);
  CHECK_FALSE(cut.still);
}

}  // namespace

TEST_CASE("in films of a real estimator the still address lies before the swing") {
  const char* folder = std::getenv("RANGECHECK_REAL_FILMS");
  if (folder == nullptr) {
    MESSAGE("skipped: RANGECHECK_REAL_FILMS is not set");
    return;
  }
  const auto locations = intake::find_submissions(folder);
  REQUIRE(locations);
  int swings = 0;
  for (const auto& location : *locations) {
    std::ifstream file(std::filesystem::path(folder) / location.id / "truth.json");
    const auto submission = intake::read_submission(location, {});
    REQUIRE(submission);
    if (!file) continue;
    const auto truth = nlohmann::json::parse(file);
    for (const auto& view : submission->views) {
      CAPTURE(location.id);
      const std::string film{intake::name_of(view.view)};
      CAPTURE(film);
      if (truth.contains("event_frame")) {
        check_swing(view, truth["event_frame"]);
        ++swings;
      } else {
        CHECK(outcome_of(view).still.has_value());
      }
    }
  }
  CHECK(swings > 0);
}

}  // namespace rangecheck
