// SPDX-License-Identifier: MIT
// What a student's page says, in whatever form it is written. Not for other rooms.
#pragma once

#include <array>
#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

#include "base/words.hpp"
#include "report/present.hpp"
#include "report/report.hpp"

namespace rangecheck::report {

/// What a page is about and how it speaks.
struct Page {
  const Graded& graded;
  const Words& words;
  std::string_view length_unit;
};

/// Whether the page is about the swing: a position after address was found that is judged.
bool shows_swing(const Graded& graded);

/// That the page is about address alone although more is judged, and whether that is because the
/// films end there; nothing where it is about all that is judged.
std::string address_only(const Page& page);

/// The sentence `id` in its form for a swing or for a set-up at address.
std::string say_of_subject(const Page& page, std::string_view id,
                           std::initializer_list<Filling> fillings = {});

/// The student's name, or the id of who has none.
std::string name_of(const Page& page);
std::string name_of(const std::string& name, const std::string& student);
/// Club and kind of swing.
std::string stroke_line(const Page& page);
std::string stroke_line(const Words& words, const std::string& club, const std::string& swing);
/// The same and the day.
std::string what_line(const Page& page);
/// Both in a line.
std::string title_line(const Page& page);
/// What it is held against.
std::string held_against(const Page& page);

/// The grade in a sentence, or that there is none.
std::string grade_sentence(const Page& page);

/// A check's name for headings: its rule's in the page's language, or the coach's own.
std::string title_of(const Page& page, const grade::Check& check);
std::string title_of(const Words& words, const NamedCheck& check);
/// The registration's title, or "" where a check has none but its own.
std::string_view registered_title(const Graded& graded, const grade::Check& check);
/// What zero and a positive value mean, for a measured check; else nothing.
std::string sign_of(const Page& page, const grade::Check& check);
/// The region it belongs to.
std::string region_title(const Page& page, const grade::Check& check);

/// "21 ± 7°", or the word that a person saw.
std::string measured_text(const Page& page, const grade::CheckResult& result);
/// "14 to 15 in".
std::string wanted_text(const Page& page, const grade::Check& check);
/// "too high".
std::string verdict_text(const Page& page, const grade::CheckResult& result);
std::string verdict_text(const Page& page, const grade::Check& check, grade::Verdict verdict);
/// What else there is to say of a value: "inside", or who gave it.
std::vector<std::string> remarks(const Page& page, const grade::CheckResult& result);

/// One thing to work on. Sentences that there are not are empty.
struct WorkItem {
  std::string heading;  ///< where, what and how much
  std::string wanted, sign, follows;
  Written why, aim, drill,
      careful;  ///< in the page's language or, where that is wanting, their own
};
WorkItem work_item(const Page& page, const grade::CheckResult& result);

/// What is different since the student's last films with this club and swing. All is empty where
/// there were none.
struct SinceLast {
  std::string lead;                  ///< introduces the changes, or says that there are none
  std::vector<std::string> changes;  ///< real ones, five at most
  std::string more;                  ///< how many others there are, and how sure they are
};
SinceLast since_last(const Page& page);
/// A check's name, with its position where the page tells positions apart.
std::string titled(const Page& page, const grade::Check& check);

/// A check as running text names it.
struct Named {
  std::string title;
  Positions at;  ///< none where the text around it says where
};
/// "hip line and knee line (p1-p4); shoulder turn (p2)": a title that comes up at several positions
/// is named once. `joint` stands between checks of different positions.
std::string named_text(const Words& words, const std::vector<Named>& checks,
                       std::string_view joint);

/// The positions of `place`, if it is one and the page has to tell positions apart.
Positions told_at(Place place, bool swing);

/// Results by place, in the order of the page.
using Results = std::vector<const grade::CheckResult*>;
Results results_at(const grade::Grade& grade, Place place);
/// Checks of no position: times, then what was read and seen.
std::array<Results, 2> rest_of(const grade::Grade& grade);
/// Why a place is not on the films, or nullptr.
const grade::PositionNotFound* not_found(const grade::Grade& grade, Place place);
/// A heading for checks of no position: times, or what was read and seen.
std::string name_of_rest(const Page& page, const Results& results);
/// "92 ± 10 %", "-", or that the place was not found.
std::string grade_text(const Page& page, Place place);

/// A verdict in the overview, with the head of its column.
struct VerdictColumn {
  std::string head;
  grade::Verdict verdict;
};
/// The columns with anything in them.
std::vector<VerdictColumn> used_columns(const Page& page);
std::size_t count_with(const Results& results, grade::Verdict verdict);

/// What the films do not show, with one remedy for all of it.
struct NotShown {
  struct Hidden {
    std::string reason, names;
  };
  std::vector<Hidden> hidden;
  std::string remedy;      ///< may be empty
  bool is_enough = true;   ///< whether it shows what is hidden all by itself
  std::size_t checks = 0;  ///< that are hidden; the others are whole positions
};
/// Positions that were not found and checks that were not seen, each reason and remedy once.
/// What one remedy shows comes first, whole positions before checks and many before few; last what
/// nothing would show.
std::vector<NotShown> not_shown(const Page& page);
/// To film again, and what would show the most checks: positions that were not found are not what a
/// grade is wanting.
std::string film_again(const Page& page);

/// What of the films to do better, the worst first, three things at most. Advice that `not_shown`
/// gives already is not given again.
struct FilmAdvice {
  std::string lead;  ///< empty when nothing is known of the films
  std::vector<std::string> items;
};
FilmAdvice film_advice(const Page& page);
/// Whether it says that the film of a view is not square.
bool told_off_square(const Graded& graded);

/// About the films, from finding and following the golfer, and what does not fit together.
std::vector<std::string> film_notes(const Graded& graded, const Words& words);
/// Bands moved and checks left out for the student's body, with what for: one for each reason.
struct JudgedNote {
  Written limit;  ///< may be empty
  Written because;
  std::string changes;
};
std::vector<JudgedNote> judged_notes(const Page& page);
/// What every page ends with.
std::vector<std::string> cautions(const Words& words);

}  // namespace rangecheck::report
