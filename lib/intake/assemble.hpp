// SPDX-License-Identifier: MIT
// From points as written to a Film: the one place that knows what is missing, which index is which
// joint, what the coordinates are counted in, and which hand the golfer swings with.
#pragma once

#include <span>
#include <vector>

#include "intake/dialects/form.hpp"
#include "intake/landmarks.hpp"
#include "intake/raw_film.hpp"
#include "intake/spot.hpp"

namespace rangecheck::intake {

/// The files of one film, as they are written; forms of `first` are tried before all others. Throws
/// Refusal where read_landmarks has an error.
RawFilm read_as_written(const std::vector<LandmarkText>& files, std::span<const Form* const> first);

/// Throws Refusal: an unknown point set (with the counts that are known), names that mean no body,
/// coordinates whose scale or picture isn't known, points in space of no body.
///
/// Which layout a bare count is written in: the one that the submission names; else those of that
/// count that the form allows, held against the film itself (head above hips above ankles, paired
/// bones of like length, no bone longer than a body), and refused with the choice to be made when
/// two fit alike.
Film assemble(RawFilm raw, const ReadOptions& options, const Spot& where);

}  // namespace rangecheck::intake
