// SPDX-License-Identifier: MIT
// `club-points` and `clicks` of a submission.
#include "fixture.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;

namespace {

const std::string film = R"({"format": "rangecheck-landmarks", "version": 1,
  "image": {"width": 1000, "height": 2000}, "frame-rate": 60, "frames": [
  {"frame": 0, "people": [{"points": {"nose": [500, 500], "left_wrist": [505, 1150],
    "right_wrist": [495, 1154], "left_ankle": [560, 1700], "right_ankle": [440, 1700]}}]},
  {"frame": 1, "people": []}]})";
const std::string club = R"([{"grip": [505, 1130, 0.9], "club_head": [540, 1690, 0.8]}, {}])";

/// A submission whose only view has `more` lines.
Result<Submission> submission_with(const std::string& more, const std::string& club_file = club) {
  const Scratch inbox;
  inbox.write("s-1/submission.yaml",
              "student: s-0417\nclub: 7-iron\ngolfer: { handedness: right }\nviews:\n"
              "  - view: face-on\n    landmarks: film.json\n" +
                  more);
  inbox.write("s-1/film.json", film);
  inbox.write("s-1/club.json", club_file);
  return read_submission({"s-1", {}, inbox.path / "s-1"}, {}, shipped_layouts());
}

std::string error_with(const std::string& more, const std::string& club_file = club) {
  const auto read = submission_with(more, club_file);
  REQUIRE_FALSE(read);
  return to_string(read.error());
}

bool mentions(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("a submission's club file and clicks") {
  const auto read = submission_with(
      "    club-points: club.json\n"
      "    clicks:\n"
      "      - { frame: 0, ball: [560, 1710], club_toe: [545, 1692] }\n"
      "      - { time: 0 s, hosel: [530, 1680] }\n");
  if (!read) FAIL(to_string(read.error()));
  const auto& points = read->views.front().film.frames.front().people.front().image;
  REQUIRE(points.has(centre(Joint::grip_end)));
  CHECK(points[centre(Joint::grip_end)]->at.x_px == 505);
  CHECK(points[centre(Joint::club_toe)]->at.x_px == 545);
  CHECK(points[centre(Joint::hosel)]->at.y_px == 1680);
  CHECK(points[centre(Joint::ball)]->at.x_px == 560);
}

TEST_CASE("what is wrong with clicks is said with its line") {
  CHECK(mentions(error_with("    clicks:\n      - { frame: 0, club_tow: [545, 1692] }\n"),
                 "submission.yaml:8: views[0].clicks[0].club_tow: there is no such key (did you "
                 "mean club_toe?)"));
  CHECK(mentions(error_with("    clicks:\n      - { frame: 0, ball: [1200, 1692] }\n"),
                 "submission.yaml:8: views[0].clicks[0].frame: ball [1200, 1692] is outside the "
                 "picture of 1000 × 2000 pixels"));
  CHECK(mentions(error_with("    clicks:\n      - { frame: 40, ball: [560, 1710] }\n"),
                 "submission.yaml:8: views[0].clicks[0].frame: the film has no such frame (its "
                 "frames are 0 to 1)"));
  CHECK(mentions(error_with("    clicks:\n      - { frame: 1, ball: [560, 1710] }\n"),
                 "the film shows nobody in this frame"));
  CHECK(mentions(error_with("    clicks:\n      - { ball: [560, 1710] }\n"),
                 "is needed, or time, and not both"));
  CHECK(mentions(error_with("    clicks:\n      - { frame: 0 }\n"),
                 "has no point of club or ball (points are ball, grip_end"));
  CHECK(mentions(error_with("    clicks: { frame: 0 }\n"), "should be a list"));
  CHECK(mentions(error_with("    clicks:\n      - { frame: 0.5, ball: [560, 1710] }\n"),
                 "should be a whole number"));
}

TEST_CASE("what is wrong with a club file is said with its name") {
  CHECK(
      mentions(error_with("    club-points: clubs.json\n"),
               "submission.yaml:7: views[0].club-points: there is no file \"clubs.json\" (did you "
               "mean club.json?)"));
  CHECK(
      mentions(error_with("    club-points: club.json\n", "[]"), "s-1/club.json: holds no frames"));
  CHECK(mentions(error_with("    club-points: club.json\n", ""), "s-1/club.json"));
  CHECK(mentions(error_with("    club-points: ../club.json\n"), "leads out of"));
}
