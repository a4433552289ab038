// SPDX-License-Identifier: MIT
// Report turns a graded submission into files for people and programs. One file per kind of output.
// It decides nothing: every verdict, order and number comes from grade.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/message.hpp"
#include "base/publish.hpp"
#include "base/publish_parts.hpp"
#include "base/result.hpp"
#include "base/words.hpp"
#include "grade/filming.hpp"
#include "grade/grade.hpp"
#include "grade/profile.hpp"
#include "history/progress.hpp"
#include "intake/submission.hpp"
#include "measure/measurement.hpp"
#include "measure/own_measure.hpp"
#include "posture/posture.hpp"
#include "report/entry.hpp"

namespace rangecheck::report {

/// When a film passed a position.
struct PositionSeen {
  Position position;
  intake::View view;
  double time_s = 0;  ///< from the film's first frame, real time
  double standard_uncertainty_s = 0;
  std::size_t frame = 0;  ///< nearest, as the landmark file numbers it
  bool from_club = false;
};

/// The golfer in one film at one position, as filmed: pixels of the picture, x right, y down.
struct Figure {
  Position position;
  intake::View view;
  LandmarkMap<intake::ImagePoint> points;
  bool left_handed = false;  ///< lead is on the picture's other side
};

/// Everything known about one submission that could be graded.
struct Graded {
  std::string submission;  ///< id: folder or common stem
  std::string student, name, received, club, swing;
  std::string language;  ///< of the student's pages; empty: whatever the coach asked for
  std::vector<measure::Measurement> measured;  ///< whole catalogue, position by position
  /// The coaches' own measures, whose rules `measured` points to as well: kept as long as it is.
  std::vector<std::shared_ptr<const measure::OwnMeasure>> own_measures;
  std::vector<PositionSeen> positions;  ///< by position, then film
  std::vector<Figure> figures;          ///< by position, then film
  grade::Grade grade;
  std::vector<grade::FilmQuality> films;   ///< in the order of the submission
  std::vector<posture::Finding> findings;  ///< about the film and the facts
  std::vector<Message> notes;  ///< about the films, from finding and following the golfer
  std::vector<posture::Agreement> agreement;  ///< of each source of evidence with all others
  /// How far estimators' own points in space lie from what two films show, film by film.
  std::vector<posture::SpaceAgreement> space_agreement;
  double birge_ratio = 1;  ///< by which uncertainties were widened for a poor fit
  std::string version;     ///< of rangecheck
  /// The student's submissions with this club and swing up to this one, which is the last; none
  /// where no history was looked at.
  history::Course course = {};
};

/// A submission that could not be graded, and why.
struct SetAside {
  std::string submission;
  Error error;
  std::string student = {};  ///< empty: not known
  /// It may be half an upload: the next run looks again, and nothing is said to be wrong yet.
  bool waits = false;
};

/// The student's page in plain text, 80 columns: what to work on (three at most), checks from the
/// ground up, what could not be seen and how to film it, how good the films are (three things to do
/// better at most), cautions. Where a position after address
/// was found the page is about the swing: a line for each position, then position by position what
/// is outside with its numbers and the rest by name; the whole list is in the other outputs. Every
/// ± is half of a 95 % interval. `length_unit` is "in" or "cm"; `words` is what it speaks from.
std::string student_text(const Graded& graded, std::string_view length_unit = "in",
                         const Words& words = english());

/// The student's page as one self-contained HTML file: no script, nothing to load. It says the
/// same, with every value that was seen.
std::string student_html(const Graded& graded, std::string_view length_unit = "in",
                         const Words& words = english());

/// The graded submission, whole, for programs: valid against profiles/schemas/result.schema.json.
/// Units do not follow the coach's taste: angles in deg, lengths in m. `indent` spaces a level, or
/// everything on one line.
std::string result_json(const Graded& graded, std::optional<int> indent = 2);
/// Such a document, as it was written, on one line; nothing where it is damaged.
std::optional<std::string> on_one_line(const std::string& document);
/// The id of the student whom such a document is about; nothing where it is none.
std::optional<std::string> student_of_result(const std::string& document);
/// What takes the place of a result for a submission that has none; same schema.
std::string set_aside_json(const SetAside& set_aside, std::optional<int> indent = 2);

/// RFC 4180, one row a check, header line first, CRLF. Cells that a spreadsheet would run are made
/// safe, control characters and broken UTF-8 visible. Written bit by bit; fails as `all` does.
Result<Nothing> csv_long(const Entries& all, std::string_view length_unit, const Write& write);

/// RFC 4180, one row a submission: columns are the union of checks over `all`, by position and then
/// in catalogue order, then what belongs to no position; what is no rule of the catalogue comes
/// after what is, by id. Units stand in the header.
Result<Nothing> csv_wide(const Entries& all, std::string_view length_unit, const Write& write);

/// A workbook (Office Open XML) of the whole run, made as `file`; the file's folder is its own
/// meanwhile. Sheets: Submissions as the coach's table has them, Checks as the long form, Side by
/// side as the wide one, Set aside with reasons, and About. Cells are typed; text is text, never
/// run. The same in gives the same bytes out. Fault::io when the file can't be written whole.
Result<Nothing> write_workbook(const std::filesystem::path& file, const Entries& graded,
                               std::span<const SetAside> set_aside,
                               std::string_view length_unit = "in");

/// What says at the coach's why a submission was set aside: a line with the reason, and one with
/// the student where that is known.
std::string set_aside_text(const SetAside& set_aside);
/// The student whom such a text names; nothing where it names none.
std::optional<std::string> student_of_set_aside(std::string_view text);

/// The coach's table for a terminal: one line a submission, with how many of the positions that are
/// judged the films show and how good the worse film is; set-aside ones at the end with reasons.
/// Students appear by id only, since tables of unattended runs end up in mails and logs.
std::string coach_table(std::span<const Summary> graded, std::span<const SetAside> set_aside,
                        std::span<const SetAside> waiting = {});

/// The coach's page as one HTML file beside `students/`: the night at a glance, the students by who
/// needs attention with links to their pages, what is outside most often, what was set aside.
/// Sorted and filtered by a script of its own; all there without it. Students appear by name.
Result<std::string> coach_html(const Entries& graded, std::span<const SetAside> set_aside,
                               std::span<const SetAside> waiting, const Words& words = english());

/// One CSV cell: quoted where RFC 4180 asks for it, and with a leading ' where the text could be
/// run as a formula (it begins with = + - @, tab or a line's end, after spaces too, and is no plain
/// number).
std::string csv_cell(std::string_view text);

/// What of a coach's words can never be said: a sentence of a measure, criterion, club or category
/// that there is not. The error names the nearest.
std::optional<Error> unknown_words(const Words& words, const grade::ProfileSet& profiles);

/// The table and the page that `rangecheck rules` prints, from the registrations alone.
std::string rules_table();
std::string rule_page(const measure::Rule& rule);

}  // namespace rangecheck::report
