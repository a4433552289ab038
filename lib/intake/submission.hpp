// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/message.hpp"
#include "base/quantity.hpp"
#include "base/result.hpp"
#include "intake/film.hpp"
#include "intake/landmarks.hpp"
#include "intake/record.hpp"

namespace rangecheck::intake {

enum class View { face_on, down_the_line };
std::string_view name_of(View view);
/// "face-on", and "face-on film", for people.
Message view_as_message(View view);
Message film_as_message(View view);

/// Foot length with the spread that the shoe-size system leaves.
struct FootLength {
  Length value;
  Length standard_uncertainty;
};

/// What is known of the golfer from roster and manifest; the manifest wins key by key.
struct Golfer {
  std::string id;
  std::string name;  ///< may be empty
  /// Spent at intake: nothing later may look at it but pictures that show a golfer as filmed.
  Handedness handedness = Handedness::right;
  std::optional<Length> stature;
  std::optional<FootLength> foot;
  std::string style;                ///< teaching style of the profile, may be empty
  std::vector<std::string> limits;  ///< the body's limits, in the coach's words
  std::string language;             ///< of the student's pages; empty where the roster says nothing
};

/// All optional; absent means the prior.
struct CameraFacts {
  std::optional<double> focal_px;
  std::optional<Length> height;
  std::optional<Length> distance;
};

struct FilmedView {
  View view = View::face_on;
  Film film;                            ///< image size always set
  std::optional<double> frame_rate_hz;  ///< of the real scene
  std::optional<ImagePoint> ball;
  /// Two points of a stick on the ground along the target line, the second nearer the target.
  std::optional<std::pair<ImagePoint, ImagePoint>> target_line;
  CameraFacts camera;
};

struct Submission {
  std::string id;  ///< folder name, or the common stem of loose files
  std::string student;
  std::string received;  ///< as written, checked to be an ISO 8601 date or date-time; may be empty
  std::string club;
  std::string swing = "full";
  Golfer golfer;
  std::vector<FilmedView> views;  ///< one or two, each view at most once
  bool same_swing = false;
  std::map<std::string, std::string> observed;
  std::map<std::string, Quantity> readings;
};

/// The roster, by student id.
using Roster = std::map<std::string, Golfer>;

/// Reads roster.csv: a header line, then one student a line. Columns (any order): id (required),
/// name, handedness, stature, shoe, style, limits (separated by ";"), language (of the pages).
/// Other columns are an error that names the nearest known one. RFC 4180 quoting, a UTF-8
/// byte-order mark and CRLF are accepted.
Result<Roster> read_roster(const std::filesystem::path& file);

/// Where a submission is: a folder with submission.yaml, or loose files
/// STUDENT_CLUB_SWING_VIEW.json.
struct Location {
  std::string id;
  std::vector<std::filesystem::path> files;  ///< loose files; empty for a folder
  std::filesystem::path folder;
};

/// All submissions in an inbox, sorted by id. Hidden entries are skipped.
Result<std::vector<Location>> find_submissions(const std::filesystem::path& inbox);

/// Why `name` can't be the id of a student or a submission, or nothing when it can: letters of any
/// script, digits, spaces and . _ - ( ) + , & ' only, starting with a letter or digit, not ending
/// with a space or a dot, at most 100 bytes. Ids become names of files.
std::optional<std::string> why_unsafe(std::string_view name);

/// Whose a submission is, when it came and of what, as its manifest or the names of its files say.
struct Sender {
  std::string student, received, club, swing;
};

/// Reads no film. The error is the one that read_submission gives.
Result<Sender> read_sender(const Location& location);

/// Reads and validates one submission whole, or says what is wrong with it. A student missing from
/// the roster is fine when the manifest gives the golfer inline, else an error naming the nearest.
/// Errors call files by their path inside the inbox. `layouts` are the point sets that are known.
Result<Submission> read_submission(const Location& location, const Roster& roster,
                                   const LayoutSet& layouts = shipped_layouts());
/// The same of one that a record carries; errors call files as if it lay in the inbox.
Result<Submission> read_submission(const Record& record, const Roster& roster,
                                   const LayoutSet& layouts = shipped_layouts());

/// The submission as a record, without earlier ones. It holds the files that reading it may come to
/// look at, and the names of others beside them. An error where it can't be one.
Result<Record> pack(const Location& location);

/// `{ mondopoint: 275 }`, `{ eu: 42 }`, `{ uk: 9 }`, `{ us-men: 10 }`, `{ us-women: 8.5 }` or, in
/// the roster, `EU 42`. Foot length by the adult formulas common on conversion tables (3 L_in − 23
/// for UK; no standard gives an exact conversion), with the rectangular half-interval and 3 mm for
/// makers.
Result<FootLength> foot_length(std::string_view system, double size);

}  // namespace rangecheck::intake
