// SPDX-License-Identifier: MIT
// A real estimator's swings, smoothed, against the true joints of the rendered figure.
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "close.hpp"
#include "intake/submission.hpp"
#include "motion/smooth.hpp"

namespace rangecheck {
namespace {

using intake::ImagePoint;

/// Where the true trail wrist is in the picture, and how large a metre is there.
struct True {
  ImagePoint at;
  double px_per_m = 0;
};

True true_wrist(const nlohmann::json& truth, const intake::FilmedView& view, std::size_t frame) {
  const auto& camera = truth["cameras"][std::string(intake::name_of(view.view))];
  const auto& joint = truth["joints_m"][frame]["trail_wrist"];
  double seen[3] = {};
  for (std::size_t row = 0; row < 3; ++row) {
    for (std::size_t k = 0; k < 3; ++k)
      seen[row] += camera["R"][row][k].get<double>() *
                   (joint[k].get<double>() - camera["pos"][k].get<double>());
  }
  const double px_per_m = camera["f"].get<double>() / seen[2];
  const auto& size = *view.film.image;
  return {{size.width_px / 2 + seen[0] * px_per_m, size.height_px / 2 + seen[1] * px_per_m},
          px_per_m};
}

double off_m(const True& truth, const ImagePoint& at) {
  return std::hypot(at.x_px - truth.at.x_px, at.y_px - truth.at.y_px) / truth.px_per_m;
}

struct Off {
  double raw_m = 0, smooth_m = 0;  ///< root mean squares from the top to the trail arm's parallel
};

Off off_in_downswing(const intake::FilmedView& view, const pose::Track& track,
                     const nlohmann::json& truth) {
  const auto clock = motion::clock_of(track, view.frame_rate_hz);
  REQUIRE(clock);
  const auto smooth = motion::smooth(track, *clock);
  const double top = truth["event_frame"]["p4"], through = truth["event_frame"]["p9"];
  Off out;
  double count = 0;
  for (auto f = static_cast<std::size_t>(top); static_cast<double>(f) < through; ++f) {
    const auto& raw = track.frames[f].person->image[trail(Joint::wrist)];
    if (!raw) continue;  // which hand it is could not be told
    const True wrist = true_wrist(truth, view, f);
    const auto at = smooth.at(Duration::seconds(clock->time_s[f])).points[trail(Joint::wrist)];
    REQUIRE(at);
    out.raw_m += std::pow(off_m(wrist, raw->at), 2);
    out.smooth_m += std::pow(off_m(wrist, at->at), 2);
    ++count;
  }
  REQUIRE(count > 10);
  return {std::sqrt(out.raw_m / count), std::sqrt(out.smooth_m / count)};
}

}  // namespace

TEST_CASE("in films of a real estimator smoothing brings the nearer hand to its true path") {
  const char* folder = std::getenv("RANGECHECK_REAL_FILMS");
  if (folder == nullptr) {
    MESSAGE("skipped: RANGECHECK_REAL_FILMS is not set");
    return;
  }
  const auto locations = intake::find_submissions(folder);
  REQUIRE(locations);
  for (const auto& location : *locations) {
    std::ifstream file(std::filesystem::path(folder) / location.id / "truth.json");
    if (!file) continue;
    const auto truth = nlohmann::json::parse(file);
    if (!truth.contains("event_frame")) continue;
    const auto submission = intake::read_submission(location, {});
    REQUIRE(submission);
    for (const auto& view : submission->views) {
      const auto track = pose::follow_golfer(view);
      if (!track) continue;  // one film has the golfer upside down all through
      const Off off = off_in_downswing(view, *track, truth);
      CAPTURE(location.id);
      CAPTURE(off.raw_m);
      CHECK(off.smooth_m < 0.03);
      CHECK(off.smooth_m < off.raw_m);
    }
  }
}

}  // namespace rangecheck
