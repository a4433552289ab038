// SPDX-License-Identifier: MIT
// The texts that go with the films: manifest, roster and truth.
#pragma once

#include <string>
#include <vector>

#include "generator/plan.hpp"

namespace rangecheck::samples {

/// A planned submission, drawn.
struct DrawnSample {
  Sample plan;
  Drawn drawn;                      ///< of a swing: the address, and all frames
  std::optional<DrawnSwing> swing;  ///< of a whole swing, besides

  explicit DrawnSample(Sample planned);

  const FilmPlan& film_plan(std::size_t film) const { return plan.films[film]; }
  /// What the student calls the view, right or wrong.
  View label(std::size_t film) const {
    return plan.films[film].labelled.value_or(drawn.films[film].view);
  }
  Film film(std::size_t film) const;                  ///< to be written, the golfer alone in it
  std::string landmark_file(std::size_t film) const;  ///< a folder for one file a frame
  std::string club_file_name(std::size_t film) const;
};

/// submission.yaml
std::string manifest(const DrawnSample& sample);
/// roster.csv of all students that do not bring their facts along.
std::string roster(const std::vector<DrawnSample>& samples);
/// What a coach might have read from the films by eye, for `rangecheck agreement`: a table of a few
/// measures at address, invented as the truth with normal noise of 3 degrees and half
/// an inch.
std::string readings(const std::vector<DrawnSample>& samples);
/// The golfer's true points, cameras and measures as JSON, in the golfer frame (a left-hander's
/// mirrored, as everything behind intake is). Of a whole swing also those at each position, and
/// when it is in each film, in seconds from the first frame.
std::string truth(const DrawnSample& sample);

}  // namespace rangecheck::samples
