// SPDX-License-Identifier: MIT
// A film that has been read, as text that intake reads back to the very same film: whatever form it
// came in, with everything that a Film holds. Numbers are written as short as they can be without
// becoming others. Names are those of a right-handed golfer.
#pragma once

#include <string>

#include "intake/film.hpp"

namespace rangecheck::report {

/// The plain form as JSON Lines: a line with what is true of the film, then a line a frame.
std::string film_jsonl(const intake::Film& film);

/// RFC 4180 (CRLF), header line first, one row a point: first rows of facts about the film, then
/// frame by frame and person by person (counted from 1). Cells that a spreadsheet would run start
/// with '.
std::string film_csv(const intake::Film& film);

}  // namespace rangecheck::report
