// SPDX-License-Identifier: MIT
// Landmark files as estimators and people write them. Here, and only here, the golfer gets a left
// and a right: a left-hander's picture is the mirror image of what was drawn, with the anatomical
// names that go with it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "generator/drawn.hpp"

namespace rangecheck::samples {

enum class Hand { right, left };

/// How numbers are written: as few digits as matter, or all that a double has, as most programs
/// around estimators do.
enum class Digits { few, all };

/// A film to be written: who is where in each frame, in the order in which the estimator lists
/// them.
struct Film {
  int width_px = 0, height_px = 0;
  double frame_rate_hz = 30;
  Hand hand = Hand::right;
  std::vector<std::vector<DetectedFrame>> frames;  ///< [frame][person]
  /// Of each frame on the camera's count, when some are missing; else they count from 0.
  std::vector<std::size_t> numbers = {};

  std::size_t number(std::size_t frame) const { return numbers.empty() ? frame : numbers[frame]; }
};

/// A film with only the golfer in it.
Film film_of(const FilmedTruth& filmed, double frame_rate_hz, Hand hand);

/// x of a point marked in the drawn picture, in the picture as shot.
double shot_x_px(const Film& film, double x_px);

/// The plain form: points by name, image size and frame rate in the file.
std::string plain_form(const Film& film);
/// An array with one entry a person and picture, 17 points.
std::string coco_results(const Film& film);
/// An array with one object a frame: 33 points as fractions of the picture, and 33 in metres; a
/// frame that is missing is an empty object.
/// Only the first person is written.
std::string points_33_results(const Film& film, Digits digits = Digits::few);

struct NamedText {
  std::string name, text;
};
/// One file a frame, 25 points a person.
std::vector<NamedText> one_file_a_frame(const Film& film, const std::string& stem);

/// The same bytes on every machine: no time, no name inside.
std::string gzipped(std::string_view text);

}  // namespace rangecheck::samples
