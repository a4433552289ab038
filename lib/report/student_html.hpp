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

/// A message in the program's English on a page of another language says so to readers aloud.
html::Markup message(const Page& page, std::string_view english_text);

/// "↑ too high": a sign and a word, so that colour says nothing alone.
html::Markup verdict_mark(const Page& page, const grade::CheckResult& result);
/// The class that colours a result.
std::string verdict_class(const grade::CheckResult& result);

/// A value with its 95 % interval over the band that is wanted; nothing for a word.
html::Markup band_picture(const Page& page, const grade::CheckResult& result);

/// Grade and counts of every position; nothing when the films show address only.
html::Markup overview_section(const Page& page);
/// Checks from the ground up: at address region by region, of a swing position by position with
/// what is not outside folded away.
html::Markup checks_section(const Page& page);

}  // namespace rangecheck::report
