// SPDX-License-Identifier: MIT
// The parts of a student's HTML page that have a file of their own. Not for other rooms.
#pragma once

#include "report/html.hpp"
#include "report/student_page.hpp"

namespace rangecheck::report {

/// How the page looks: a narrow phone first, wider screens, dark, print. Colours of data are those
/// of Okabe and Ito, "Color Universal Design", 2008; tests hold every pair of colours against
/// WCAG 2.2.
std::string_view page_style();

/// What somebody wrote; in another language than the page's, it says so to readers aloud.
html::Markup told(const Page& page, const Written& written);

/// "↑ too high": a sign and a word, so that colour says nothing alone.
html::Markup verdict_mark(const Page& page, const grade::CheckResult& result);
/// The class that colours a result.
std::string verdict_class(const grade::CheckResult& result);
std::string verdict_class(grade::Verdict verdict);

/// A number of a drawing, to a tenth of its unit.
std::string n(double value);
/// A straight line of a drawing; `kind` is its class.
html::Markup line(double x1, double y1, double x2, double y2, std::string_view kind);

/// A value with its 95 % interval over the band that is wanted; nothing for a word.
html::Markup band_picture(const Page& page, const grade::CheckResult& result);

/// Whether `figure` shows the check in the plane of its picture: its rule says how it is drawn, the
/// points are there, and the picture's own angle is about the one that was measured.
bool can_draw(const Page& page, const Figure& figure, const grade::CheckResult& result);
/// The stick figure with those of `checks` drawn on it that can be, three at most, and its caption.
html::Markup figure_picture(const Page& page, const Figure& figure, const Results& checks);
/// The figure that shows what to work on first, with that alone; nothing where none does.
html::Markup first_figure(const Page& page, const grade::CheckResult& first);
/// Every view at address and where the first thing to work on is.
html::Markup figures_section(const Page& page);

/// How the grade, what to work on first and what was to be worked on last time went from films to
/// films: a picture of each that was seen more than once, with its words. Nothing where none was.
html::Markup progress_pictures(const Page& page);

/// Grade and counts of every position; nothing when the films show address only.
html::Markup overview_section(const Page& page);
/// Checks from the ground up: at address region by region, of a swing position by position with
/// what is not outside folded away.
html::Markup checks_section(const Page& page);

}  // namespace rangecheck::report
