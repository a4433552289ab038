// SPDX-License-Identifier: MIT
// A film read twice: by an estimator of people, and by a detector of clubs and balls that writes a
// file of its own.
#pragma once

#include <string>

#include "generator/writer.hpp"

namespace rangecheck::samples {

/// The film as an estimator of people gives it.
Film without_club(Film film);

/// What the detector writes: in each frame objects of named points, the golfer's club and ball
/// among a club that leans on a bag and balls that lie about, each frame in another order.
std::string club_file(const Film& film);

}  // namespace rangecheck::samples
