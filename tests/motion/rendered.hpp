// SPDX-License-Identifier: MIT
// Rendered swings, read by a real estimator, with the true time of every position.
#pragma once

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "base/position.hpp"
#include "intake/submission.hpp"
#include "pose/golfer.hpp"

namespace rangecheck::test {

struct RenderedFilm {
  std::string name;  ///< folder and view
  pose::Track track;
  double rate_hz = 0;
  PositionMap<double> truth_s;
};

/// The swings in a folder of submissions, by name. Films that pose refuses and films without a
/// swing are left out.
inline std::vector<RenderedFilm> rendered_films(const std::filesystem::path& folder) {
  std::vector<RenderedFilm> out;
  const auto locations = intake::find_submissions(folder);
  if (!locations) return out;
  for (const auto& location : *locations) {
    std::ifstream file(folder / location.id / "truth.json");
    if (!file) continue;
    const auto truth = nlohmann::json::parse(file);
    const auto submission = intake::read_submission(location, {});
    if (!submission || !truth.contains("event_frame")) continue;
    const double rate_hz = truth["frame_rate"];
    PositionMap<double> truth_s;
    for (const auto& [alias, frame] : truth["event_frame"].items()) {
      if (const auto position = find_position(alias))
        truth_s[*position] = frame.get<double>() / rate_hz;
    }
    for (const auto& view : submission->views) {
      auto track = pose::follow_golfer(view);
      if (!track) continue;
      out.push_back({location.id + " " + std::string(intake::name_of(view.view)), *std::move(track),
                     rate_hz, truth_s});
    }
  }
  return out;
}

}  // namespace rangecheck::test
