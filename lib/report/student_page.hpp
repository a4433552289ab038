// SPDX-License-Identifier: MIT
// The parts of a student's page that have a file of their own, and what they share. Not for other
// rooms.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "report/present.hpp"
#include "report/report.hpp"

namespace rangecheck::report {

/// A line and its underline, after an empty one.
std::string heading(std::string_view title);

/// Whether the page is about the swing: a position after address was found that is judged.
bool shows_swing(const Graded& graded);

/// "21 ± 7 deg", or the word that a person saw.
std::string measured_text(const grade::CheckResult& result, const Unit& unit);

/// A check as running text names it.
struct Named {
  std::string title;
  Positions at;  ///< none where the text around it says where
};
/// "hip line and knee line (p1-p4); shoulder turn (p2)": a title that comes up at several positions
/// is named once. `joint` stands between checks of different positions.
std::string named_text(const std::vector<Named>& checks, std::string_view joint = "; ");

/// The positions of `place`, if it is one and the page has to tell positions apart.
Positions told_at(Place place, bool swing);

/// Grade and counts of verdicts of every position; nothing when the films show address only.
std::string overview_block(const Graded& graded);

/// Address alone: every check that could be judged, region by region. A swing: position by
/// position what is outside, and in a line each what is good and what can't be told.
std::string checks_block(const Graded& graded, std::string_view length_unit);

/// Positions that were not found and checks that were not seen, each reason and remedy once.
std::string not_shown_block(const Graded& graded, std::string_view length_unit);

/// What of the films to do better, the worst first, three things at most; one line when there is
/// nothing. Advice that the block above gives already is not given again.
std::string films_block(const Graded& graded);

/// Whether `films_block` says that the film of this view is not square.
bool told_off_square(const Graded& graded);

/// Checks that were left out for the student's body, a line for each reason.
std::string left_out_lines(const Graded& graded);

}  // namespace rangecheck::report
