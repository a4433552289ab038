// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "base/message.hpp"
#include "intake/landmarks.hpp"
#include "intake/raw_film.hpp"
#include "intake/spot.hpp"

namespace rangecheck::intake {

/// Either of the lists of points of a person.
using PointsOf = std::vector<RawPoint> RawPerson::*;

/// Which joint each index of a list is.
struct Chosen {
  std::vector<LayoutPoint> points;
  double least_score = 0;
  Estimator estimator = Estimator::unknown;
  Message note;  ///< what was assumed; empty when nothing was
};

/// True for names of which enough mean joints of a human body, and none of an animal's.
bool names_a_body(const std::vector<std::string>& names);

/// For the lists of a film, of which one at least has points. Throws Refusal; see assemble.
Chosen choose_layout(const RawFilm& film, PointsOf list, const ReadOptions& options,
                     const Spot& where);

}  // namespace rangecheck::intake
