// SPDX-License-Identifier: MIT
#include "intake/submission.hpp"

#include "fixture.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;
namespace fs = std::filesystem;

namespace {

const std::string film = R"({"format": "rangecheck-landmarks", "version": 1,
  "image": {"width": 1000, "height": 2000}, "frame-rate": 60, "frames": [
  {"people": [{"points": {"left_knee": [612, 1210], "right_knee": [500, 1212]}}]}]})";

const std::string whole_manifest = R"(student: s-0417
received: 2026-03-14T18:22:00+02:00
club: 7-iron
swing: full
golfer: { handedness: right, stature: 178 cm, shoe: { mondopoint: 275 } }
views:
  - view: face-on
    landmarks: face-on.json
    image: { width: 1000, height: 2000 }
    frame-rate: 240
    ball: [612, 1540]
    target-line: [[180, 1610], [930, 1602]]
    camera: { focal-px: 1500, height: 0.95 m, distance: 3.5 m }
  - view: down-the-line
    landmarks: dtl.json
same-swing: true
observed:
  lead-thumb: trail-side
readings:
  face-to-target: 1.4 deg
  club-path: -3.2 deg
)";

/// An inbox with one submission s-1 of two films.
struct Inbox : Scratch {
  explicit Inbox(const std::string& manifest) {
    write("s-1/submission.yaml", manifest);
    write("s-1/face-on.json", film);
    write("s-1/dtl.json", film);
  }
  Result<Submission> read(const Roster& roster = {}) const {
    return read_submission({"s-1", {}, path / "s-1"}, roster);
  }
  std::string error(const Roster& roster = {}) const {
    const auto submission = read(roster);
    REQUIRE_FALSE(submission);
    return to_string(submission.error());
  }
};

/// The manifest with the first `before` in it made `after`.
std::string changed(const std::string& before, const std::string& after) {
  std::string text = whole_manifest;
  const auto at = text.find(before);
  REQUIRE(at != std::string::npos);
  return text.replace(at, before.size(), after);
}

std::string error_when(const std::string& before, const std::string& after) {
  return Inbox(changed(before, after)).error();
}

Roster roster_with(Golfer golfer) { return {{golfer.id, std::move(golfer)}}; }

}  // namespace

TEST_CASE("whose a submission is takes its manifest or the names of its files, and no film") {
  Inbox inbox(whole_manifest);
  inbox.write("s-1/face-on.json", "no film");
  auto sender = read_sender({"s-1", {}, inbox.path / "s-1"});
  REQUIRE(sender);
  CHECK(sender->student == "s-0417");
  CHECK(sender->received == "2026-03-14T18:22:00+02:00");
  inbox.write("s-0400_7-iron_full_face-on.json", "no film");
  sender =
      read_sender({"s-0400_7-iron_full", {inbox.path / "s-0400_7-iron_full_face-on.json"}, {}});
  REQUIRE(sender);
  CHECK(sender->student == "s-0400");
  CHECK(sender->received.empty());
  inbox.write("s-1/submission.yaml", "student: [");
  CHECK_FALSE(read_sender({"s-1", {}, inbox.path / "s-1"}));
}

TEST_CASE("a whole submission") {
  const auto read = Inbox(whole_manifest).read();
  REQUIRE(read);
  CHECK(read->id == "s-1");
  CHECK(read->student == "s-0417");
  CHECK(read->received == "2026-03-14T18:22:00+02:00");
  CHECK(read->club == "7-iron");
  CHECK(read->swing == "full");
  CHECK(read->same_swing);
  CHECK(read->golfer.id == "s-0417");
  CHECK_CLOSE(read->golfer.stature->in_metres(), 1.78, 1e-12);
  CHECK_CLOSE(read->golfer.foot->value.in_millimetres(), 275, 1e-9);
  CHECK(read->observed.at("lead-thumb") == "trail-side");
  CHECK_CLOSE(Angle::radians(read->readings.at("club-path").si).in_degrees(), -3.2, 1e-12);
  REQUIRE(read->views.size() == 2);
  const FilmedView& first = read->views[0];
  CHECK(first.view == View::face_on);
  CHECK(first.frame_rate_hz == 240);
  CHECK(first.ball->x_px == 612);
  CHECK(first.ball->y_px == 1540);
  CHECK(first.target_line->second.x_px == 930);
  CHECK(first.camera.focal_px == 1500);
  CHECK_CLOSE(first.camera.height->in_metres(), 0.95, 1e-12);
  CHECK_CLOSE(first.camera.distance->in_metres(), 3.5, 1e-12);
  const FilmedView& second = read->views[1];
  CHECK(second.view == View::down_the_line);
  CHECK(second.frame_rate_hz == 60);
  CHECK(second.film.image->height_px == 2000);
  CHECK_FALSE(second.ball);
}

TEST_CASE("a manifest's faults are named with file, line, key and what to do") {
  const std::string at = "s-1/submission.yaml:";
  CHECK(error_when("frame-rate", "frame-rte") ==
        at + "10: views[0].frame-rte: there is no such key (did you mean frame-rate?)");
  CHECK(error_when("stature", "statur") ==
        at + "5: golfer.statur: there is no such key (did you mean stature?)");
  CHECK(error_when("swing: full", "swing: fulll") ==
        at +
            "4: swing: \"fulll\" should be full, pitch, chip, bunker or putt (did you mean full?)");
  CHECK(error_when("178 cm", "17.8 m") ==
        at +
            "5: golfer.stature: \"17.8 m\" can't be a stature: it is outside 0.9 m to 2.3 m (check "
            "the unit)");
  CHECK(error_when("mondopoint: 275", "mondopoint: 27") ==
        at + "5: golfer.shoe: mondopoint 27 would be a foot of 27 mm, outside 150 mm to 350 mm "
             "(check the size and its system)");
  CHECK(error_when("mondopoint: 275", "mondopoint: 275, eu: 42").find("one size in one system") !=
        std::string::npos);
  CHECK(error_when("mondopoint", "mondopint").find("did you mean mondopoint?") !=
        std::string::npos);
  CHECK(error_when("handedness: right", "handedness: both") ==
        at + "5: golfer.handedness: \"both\" is neither right nor left (write right or left)");
  CHECK(error_when("club: 7-iron\n", "") == at + "1: club: is missing (add this key)");
  CHECK(error_when("student: s-0417\n", "") == at + "1: student: is missing (add this key)");
  CHECK(error_when("student: s-0417", "student: ../../etc") ==
        at + "1: student: \"../../etc\" can't be a student's id: it may have only letters, digits, "
             "spaces and . _ - ( ) + , & '");
  CHECK(error_when("2026-03-14T18:22:00+02:00", "14.3.2026") ==
        at + "2: received: \"14.3.2026\" isn't a date or a date with a time (write it as "
             "2026-03-14T18:22:00+02:00)");
  CHECK(error_when("view: down-the-line", "view: face-on") ==
        at + "6: views: both films are face-on (one is face-on, the other down-the-line)");
  CHECK(error_when("width: 1000, ", "") ==
        at + "9: views[0].image.width: is missing (write image: { width: 1080, height: 1920 })");
  CHECK(error_when("1.4 deg", "1.4") ==
        at + "20: readings.face-to-target: \"1.4\" isn't an angle: it has no unit (write a number "
             "and a unit: deg, rad)");
  CHECK(error_when("club-path", "ball-speed") ==
        at + "21: readings.ball-speed: there is no such key");
  CHECK(error_when("focal-px: 1500", "focal-px: 0") ==
        at + "13: views[0].camera.focal-px: 0 is outside 50 to 200000");
  CHECK(error_when("0.95 m", "95 m") ==
        at + "13: views[0].camera.height: 95 m is outside 0 m to 20 m");
  CHECK(error_when("frame-rate: 240", "frame-rate: fast") ==
        at + "10: views[0].frame-rate: \"fast\" isn't a number");
}

TEST_CASE("dates: ISO 8601, whole or by the day") {
  for (const char* good :
       {"2026-03-14", "2026-03-14T18:22Z", "2026-03-14 18:22:59.250", "2026-03-14T18:22:00-0330"}) {
    CAPTURE(good);
    CHECK(Inbox(changed("2026-03-14T18:22:00+02:00", good)).read());
  }
  for (const char* bad :
       {"2026-13-14", "2026-3-14", "2026-03-14T25:00", "2026-03-14T18:22:00+99:00", "2026-03-14T18",
        "2026-03-14T", "yesterday"}) {
    CAPTURE(bad);
    CHECK_FALSE(Inbox(changed("2026-03-14T18:22:00+02:00", bad)).read());
  }
}

TEST_CASE("the manifest wins over the roster key by key") {
  Golfer known;
  known.id = "s-0417";
  known.name = "Ann";
  known.style = "narrow";
  known.handedness = Handedness::left;
  known.stature = Length::metres(1.6);
  known.limits = {"stiff neck"};
  const std::string golfer =
      "golfer: { handedness: right, stature: 178 cm, shoe: { mondopoint: 275 } }";
  const auto read =
      Inbox(changed(golfer, "golfer: { stature: 170 cm, shoe: EU 42, limits: [x, y] }"))
          .read(roster_with(known));
  REQUIRE_FALSE(read);  // a left-hander's target line would point away from the target
  CHECK(to_string(read.error()).find("target-line: points away from the target") !=
        std::string::npos);
  known.handedness = Handedness::right;
  const auto again =
      Inbox(changed(golfer, "golfer: { stature: 170 cm, shoe: EU 42, limits: [x, y] }"))
          .read(roster_with(known));
  REQUIRE(again);
  CHECK(again->golfer.name == "Ann");
  CHECK(again->golfer.style == "narrow");
  CHECK_CLOSE(again->golfer.stature->in_metres(), 1.7, 1e-12);
  CHECK_CLOSE(again->golfer.foot->value.in_millimetres(), 265, 1e-9);
  CHECK(again->golfer.limits == std::vector<std::string>{"x", "y"});
}

TEST_CASE("a student nobody knows") {
  const std::string golfer =
      "golfer: { handedness: right, stature: 178 cm, shoe: { mondopoint: 275 } }\n";
  const Inbox inbox(changed(golfer, ""));
  CHECK(
      inbox.error() ==
      "s-1/submission.yaml:1: student: student \"s-0417\" isn't in the roster (add the student to "
      "the roster, or golfer: to submission.yaml)");
  Golfer other;
  other.id = "s-0471";
  CHECK(inbox.error(roster_with(other)).find("did you mean s-0471?") != std::string::npos);
}

TEST_CASE("submissions in an inbox: folders, loose files by their common stem, nothing hidden") {
  const Inbox inbox(whole_manifest);
  inbox.write("s_2_driver_full_face-on.json", film);
  inbox.write("s_2_driver_full_down-the-line.json.gz", film);
  inbox.write("odd.json", film);
  inbox.write("roster.csv", "id\n");
  inbox.write(".hidden/submission.yaml", "");
  inbox.write(".DS_Store", "");
  const auto found = find_submissions(inbox.path);
  REQUIRE(found);
  REQUIRE(found->size() == 3);
  CHECK((*found)[0].id == "odd");
  CHECK((*found)[1].id == "s-1");
  CHECK((*found)[1].folder == inbox.path / "s-1");
  CHECK((*found)[2].id == "s_2_driver_full");
  CHECK((*found)[2].files.size() == 2);

  Golfer golfer;
  golfer.id = "s_2";
  const auto read = read_submission((*found)[2], roster_with(golfer));
  REQUIRE(read);
  CHECK(read->student == "s_2");
  CHECK(read->club == "driver");
  CHECK(read->swing == "full");
  CHECK(read->views.size() == 2);
  CHECK(read->views[0].frame_rate_hz == 60);
  CHECK(
      to_string(read_submission((*found)[0], {}).error()) ==
      "odd.json: isn't named STUDENT_CLUB_SWING_VIEW.json (VIEW is face-on or down-the-line, SWING "
      "is full, pitch, chip, bunker or putt)");
  CHECK(to_string(read_submission((*found)[2], {}).error()).find("isn't in the roster") !=
        std::string::npos);
  CHECK_FALSE(find_submissions(inbox.path / "none"));
}

TEST_CASE("a folder and loose files of one name stay two submissions") {
  const Scratch scratch;
  scratch.write("a_7-iron_full/submission.yaml", whole_manifest);
  scratch.write("a_7-iron_full_face-on.json", film);
  scratch.write("a_7-iron_full_down-the-line.json", film);
  const auto found = find_submissions(scratch.path);
  REQUIRE(found);
  REQUIRE(found->size() == 2);
  CHECK((*found)[1].id == "a_7-iron_full-files");
  CHECK((*found)[1].files.size() == 2);
}

TEST_CASE("a folder without a manifest whose files say it all") {
  const Scratch scratch;
  Golfer golfer;
  golfer.id = "ann";
  scratch.write("x/ann_7-iron_chip_face-on.json", film);
  const Location location{"x", {}, scratch.path / "x"};
  const auto read = read_submission(location, roster_with(golfer));
  REQUIRE(read);
  CHECK(read->id == "x");
  CHECK(read->swing == "chip");
  scratch.write("x/bob_7-iron_chip_down-the-line.json", film);
  CHECK(to_string(read_submission(location, roster_with(golfer)).error()) ==
        "x/bob_7-iron_chip_down-the-line.json: belongs to another submission than the files beside "
        "it (keep each submission in a folder of its own)");
  const Scratch empty;
  fs::create_directory(empty.path / "y");
  CHECK(to_string(read_submission({"y", {}, empty.path / "y"}, {}).error()) ==
        "y: holds neither submission.yaml nor files named STUDENT_CLUB_SWING_VIEW.json");
}

TEST_CASE("hostile names of submissions are refused before anything is opened") {
  const Scratch scratch;
  const auto read = read_submission({"../x", {}, scratch.path / "x"}, {});
  REQUIRE_FALSE(read);
  CHECK(
      read.error().what ==
      "\"../x\" can't be the name of a submission: it may have only letters, digits, spaces and . "
      "_ - ( ) + , & '");
  fs::create_directory(scratch.path / "a\nb");
  CHECK(to_string(read_submission({"a\nb", {}, scratch.path / "a\nb"}, {}).error()).find('\n') ==
        std::string::npos);
}
