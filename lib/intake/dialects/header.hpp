// SPDX-License-Identifier: MIT
// Numbers and times of frames, size of the picture and frame rate, wherever programs write them.
#pragma once

#include <optional>
#include <vector>

#include "intake/raw_film.hpp"
#include "intake/value.hpp"

namespace rangecheck::intake {

/// Numbers and times beside the people of each frame.
class Stamps {
 public:
  void add(Value entry);
  /// Puts them on the frames, which are as many. Numbers that are not in all frames, or that repeat
  /// themselves, are no numbers. Times may be in any unit: neighbouring frames of a film that shows
  /// a swing are between 1/1000 and 1 second apart, which tells it.
  void stamp(RawFilm& film) const;

 private:
  std::vector<std::optional<long long>> numbers_;
  std::vector<std::optional<double>> times_;
};

/// Size and rate, where `object` has them and the film has none yet.
void read_header(Value object, RawFilm& film);

}  // namespace rangecheck::intake
